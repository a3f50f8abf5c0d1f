import { isStandardPack } from '../workspace/packs';
import { relativePath } from '../workspace/paths';
import type { RulesInForce } from '../workspace/project';
import { effectiveRules, type RuleInForce } from '../workspace/rules';
import { EXIT, type Exit, UsageError } from './io';
import { harmIn, nameFor, type RulesPage, widthOfPage } from './rules-page';
import { padded, printable, widthOf, wrap } from './width';
import { counted } from './words';

/** `kitproof rules list`: the effective set of rules at a path. */
export async function listRules(words: readonly string[], page: RulesPage): Promise<Exit> {
  if (words.length > 1) throw new UsageError('kitproof rules list takes one path.');
  const { io, project } = page;
  const inForce = await project.rulesAt(await nameFor(io, words[0]));
  const rules = effectiveRules(inForce);
  io.out(page.format === 'json' ? asJson(rules, page) : asText(rules, inForce, page));
  const gone = inForce.configuration.packs.filter((name) => inForce.configured.get(name)?.kind !== 'rules');
  for (const name of gone)
    io.err(
      `kitproof: ${relativePath(io.folder, name)}, which kitproof.yaml lists, is no rule pack or not there.\n`,
    );
  return gone.length > 0 ? EXIT.failed : EXIT.clean;
}

function asJson(rules: readonly RuleInForce[], { io }: RulesPage): string {
  const listed = rules.map(({ rule, on, set }) => ({
    id: rule.id,
    pack: rule.pack,
    core: rule.core,
    harm: rule.harm,
    severity: rule.severity,
    on,
    set: set !== null,
    family: rule.family,
    overrides: rule.overrides,
    file: isStandardPack(rule.place.uri) ? null : relativePath(io.folder, rule.place.uri),
    reason: rule.reason,
    source: rule.source,
  }));
  return `${JSON.stringify(listed, null, 2)}\n`;
}

function asText(rules: readonly RuleInForce[], inForce: RulesInForce, { io, colours }: RulesPage): string {
  // Ids are never cut: people copy them.
  const width = Math.max(...rules.map(({ rule }) => widthOf(printable(rule.id))));
  const blocks: string[] = [];
  for (const pack of inForce.packs) {
    const own = rules.filter(({ rule }) => rule.place.uri === pack.uri);
    if (own.length === 0) continue;
    const where = isStandardPack(pack.uri) ? '' : `  ${relativePath(io.folder, pack.uri)}`;
    const on = own.filter((one) => one.on).length;
    const title = `${colours.bold(printable(own[0]!.rule.pack))}${colours.dim(`${printable(where)}  ${counted(own.length, 'rule')}, ${on} on`)}`;
    const rows = own.map(({ rule, on, set }) => {
      const name = padded(printable(rule.id), width);
      const said = [set === null ? '' : 'set', rule.severity ?? '', rule.overrides ? 'overrides' : ''];
      const cells = [
        on ? name : colours.dim(name),
        harmIn(colours, rule.harm, padded(rule.harm, 9)),
        padded(rule.core ? 'core' : 'house', 5),
        on ? colours.green('on ') : colours.dim('off'),
        said.filter(Boolean).join(', '),
      ];
      return `  ${cells.join('  ')}`.trimEnd();
    });
    blocks.push([title, ...rows].join('\n'));
  }
  const on = rules.filter((one) => one.on).length;
  const { configuration } = inForce;
  const settings =
    configuration.document === null
      ? 'No kitproof.yaml counts here: core rules are on, house rules off.'
      : `What ${relativePath(io.folder, configuration.document.uri)} says is marked "set"; else core rules are on, house rules off.`;
  const summary = wrap(`${counted(rules.length, 'rule')}, ${on} of them on. ${settings}`, widthOfPage(io));
  return `${blocks.join('\n\n')}\n\n${summary.join('\n')}\n`;
}
