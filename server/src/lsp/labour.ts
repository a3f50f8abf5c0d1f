import { hoursInWords } from '../guide/hours';
import type { OpenGuide } from '../workspace/guides';
import { labourOfModel, standardTimesOf } from '../workspace/labour';
import type { LabourView } from './guide-view-types';

/** What a guide takes, for the status bar. */
export function labourView({ closure, model }: OpenGuide): LabourView {
  const labour = labourOfModel(closure, model, standardTimesOf(closure));
  return hoursInWords(labour, closure.configuration.hourStep);
}
