import type { TraceGraph } from '../graph/trace-graph.ts';
import { isOfType, type RecordOf } from '../records/record.ts';
import { recordTexts } from '../records/record-texts.ts';
import { changedIds, whatHappened } from './changed-ids.ts';
import type { RecordChange } from './compare-records.ts';
import type { ValueChange } from './compare-values.ts';
import type { FileState } from './file-state.ts';
import { type ReliancePath, relianceOf } from './reliance.ts';

/** A label, pack or text for users that says something about what changed. */
export interface LabelTouched {
  readonly id: string;
  readonly title: string;
  readonly kind: string;
  readonly reasons: readonly { readonly text: string; readonly path: ReliancePath }[];
}

const labelKinds: ReadonlySet<string> = new Set(['label', 'packaging', 'instructions for use']);

const onOneLine = (text: string): string => text.replace(/\s+/g, ' ').trim().toLowerCase();

/** Whether an output, or the document that holds its words, repeats a wording; letter case and line breaks make no difference. */
const repeats = (graph: TraceGraph, output: RecordOf<'design-output'>, wording: string): boolean => {
  const document = graph.record(output.fields.wording ?? '');
  const wanted = onOneLine(wording);
  return [output, ...(document ? [document] : [])]
    .flatMap(recordTexts)
    .some(({ text }) => onOneLine(text).includes(wanted));
};

/**
 * Design outputs of the kinds label, packaging and instructions for use: changed themselves, resting on something
 * that changed, or repeating a wording of plinth.yaml that changed.
 */
export const labelsTouched = (
  after: FileState,
  records: readonly RecordChange[],
  settings: readonly ValueChange[],
): readonly LabelTouched[] => {
  const changed = changedIds(records);
  const phrases = settings.filter((change) => change.path[0] === 'phrases');
  return after.graph.recordsOf('design-output').flatMap((output): readonly LabelTouched[] => {
    const kind = output.fields.kind;
    if (output.status === 'retired' || kind === undefined || !labelKinds.has(kind)) return [];
    const isNew = records.some((change) => change.id === output.id && change.kind === 'added');
    const own = isNew || changed.has(output.id);
    const reasons = [
      ...(own ? [{ text: `${output.id} ${isNew ? 'is new' : 'changed'}`, path: [output.id] }] : []),
      ...[...relianceOf(after.graph, output.id)].flatMap(([id, path]) => {
        const change = changed.get(id);
        return change ? [{ text: `it rests on ${id}, which ${whatHappened(change)}`, path }] : [];
      }),
      ...phrases.flatMap(({ path, before, after: now }) => {
        const key = String(path[1] ?? '');
        const states = isOfType(output, 'design-output') ? (output.fields.states ?? {}) : {};
        const isStated =
          Object.hasOwn(states, key) ||
          [before, now].some((wording) => wording !== undefined && repeats(after.graph, output, wording));
        return isStated ? [{ text: `the wording "${key}" of plinth.yaml changed`, path: [output.id] }] : [];
      }),
    ];
    return reasons.length > 0 ? [{ id: output.id, title: output.title, kind, reasons }] : [];
  });
};
