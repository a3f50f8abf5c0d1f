/** PNG pictures of a screen made small: 256 colours are all that an editor's window needs. */
import { deflateSync, inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const MOST_COLOURS = 256;

interface Picture {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue of each pixel, from the top left. */
  readonly pixels: Uint8Array;
}

/** The same picture with a palette of 256 colours, 8 bits a pixel. It must be of 8-bit RGB or RGBA, not interlaced. */
export function withPalette(png: Buffer): Buffer {
  const picture = decode(png);
  const { width, height, pixels } = picture;
  const palette = paletteOf(pixels);
  const nearest = new Map<number, number>();
  const lines = Buffer.alloc(height * (width + 1));
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const colour = colourAt(pixels, row * width + column);
      let index = nearest.get(colour);
      if (index === undefined) {
        index = nearestIn(palette, colour);
        nearest.set(colour, index);
      }
      lines[row * (width + 1) + 1 + column] = index;
    }
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 3, 0, 0, 0], 8);
  const colours = Buffer.from(palette.flatMap((colour) => [colour >> 16, (colour >> 8) & 255, colour & 255]));
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', header),
    chunk('PLTE', colours),
    chunk('IDAT', deflateSync(lines, { level: 9, memLevel: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

const colourAt = (pixels: Uint8Array, index: number): number =>
  (pixels[3 * index]! << 16) | (pixels[3 * index + 1]! << 8) | pixels[3 * index + 2]!;

/** The colours that are used most, each told from those before it. */
function paletteOf(pixels: Uint8Array): number[] {
  const counts = new Map<number, number>();
  for (let index = 0; index < pixels.length / 3; index++) {
    const colour = colourAt(pixels, index);
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  const byUse = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([colour]) => colour);
  if (byUse.length <= MOST_COLOURS) return byUse;
  const palette: number[] = [];
  const left: number[] = [];
  for (const colour of byUse) {
    const far = palette.every((other) => distance(colour, other) > 200);
    if (far && palette.length < MOST_COLOURS) palette.push(colour);
    else left.push(colour);
  }
  palette.push(...left.slice(0, MOST_COLOURS - palette.length));
  return palette;
}

function nearestIn(palette: readonly number[], colour: number): number {
  let best = 0;
  for (let index = 1; index < palette.length; index++)
    if (distance(palette[index]!, colour) < distance(palette[best]!, colour)) best = index;
  return best;
}

function distance(a: number, b: number): number {
  const red = (a >> 16) - (b >> 16);
  const green = ((a >> 8) & 255) - ((b >> 8) & 255);
  const blue = (a & 255) - (b & 255);
  return 2 * red * red + 4 * green * green + 3 * blue * blue;
}

function decode(png: Buffer): Picture {
  const data: Buffer[] = [];
  let [width, height, channels] = [0, 0, 0];
  for (let at = SIGNATURE.length; at < png.length; ) {
    const length = png.readUInt32BE(at);
    const type = png.toString('latin1', at + 4, at + 8);
    const body = png.subarray(at + 8, at + 8 + length);
    if (type === 'IHDR') {
      width = body.readUInt32BE(0);
      height = body.readUInt32BE(4);
      const [depth, colour, , , interlaced] = body.subarray(8);
      channels = colour === 6 ? 4 : 3;
      if (depth !== 8 || (colour !== 2 && colour !== 6) || interlaced !== 0)
        throw new Error('The picture is not of 8-bit colours.');
    } else if (type === 'IDAT') data.push(body);
    at += 12 + length;
  }
  const raw = inflateSync(Buffer.concat(data));
  const stride = width * channels;
  const pixels = new Uint8Array(width * height * 3);
  let above = new Uint8Array(stride);
  for (let row = 0; row < height; row++) {
    const start = row * (stride + 1);
    const line = new Uint8Array(raw.subarray(start + 1, start + 1 + stride));
    unfilter(raw[start]!, line, above, channels);
    for (let column = 0; column < width; column++)
      for (let part = 0; part < 3; part++)
        pixels[3 * (row * width + column) + part] = line[column * channels + part]!;
    above = line;
  }
  return { width, height, pixels };
}

/** Undoes one of the five filters of a line, in place. */
function unfilter(filter: number, line: Uint8Array, above: Uint8Array, step: number): void {
  for (let at = 0; at < line.length; at++) {
    const left = at < step ? 0 : line[at - step]!;
    const up = above[at]!;
    const corner = at < step ? 0 : above[at - step]!;
    const guess =
      filter === 1
        ? left
        : filter === 2
          ? up
          : filter === 3
            ? (left + up) >> 1
            : filter === 4
              ? paeth(left, up, corner)
              : 0;
    line[at] = line[at]! + guess;
  }
}

function paeth(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [toLeft, toUp, toCorner] = [left, up, corner].map((one) => Math.abs(guess - one)) as [
    number,
    number,
    number,
  ];
  return toLeft <= toUp && toLeft <= toCorner ? left : toUp <= toCorner ? up : corner;
}

function chunk(type: string, body: Buffer): Buffer {
  const out = Buffer.alloc(body.length + 12);
  out.writeUInt32BE(body.length, 0);
  out.write(type, 4, 'latin1');
  body.copy(out, 8);
  out.writeUInt32BE(checksum(out.subarray(4, 8 + body.length)), 8 + body.length);
  return out;
}

/** CRC-32, as the PNG specification gives it. */
function checksum(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? 0xedb88320 ^ (sum >>> 1) : sum >>> 1;
  }
  return ~sum >>> 0;
}
