import { digestsLookedFor } from '../graph/past-content.ts';
import { openRepository } from '../host/git.ts';
import { type Analysis, analyse, type Inputs } from '../pipeline.ts';
import type { SourceFile } from '../records/source-file.ts';

/**
 * Analyses a technical file and, where approvals have lapsed and git is at hand, looks for the content that was
 * approved, so that the findings can show what changed since.
 */
export const analyseWithHistory = (inputs: Inputs, folder: string): Analysis => {
  const analysis = analyse(inputs);
  const wanted = [...digestsLookedFor(analysis.approvals).keys()];
  if (wanted.length === 0) return analysis;
  const past = pastStates(wanted, folder);
  return past.length > 0 ? analyse({ ...inputs, past }) : analysis;
};

/** All earlier states in the history of the files that held records with these ids, whatever their names were then. */
const pastStates = (ids: readonly string[], folder: string): readonly SourceFile[] => {
  const opened = openRepository(folder);
  if (!opened.ok) return [];
  const { repository } = opened;
  const paths = new Map<string, string>();
  for (const { changes } of repository.history())
    for (const { path, before, after } of changes)
      if (path.endsWith('.md'))
        for (const object of [before, after]) if (object !== undefined) paths.set(object, path);
  const states: SourceFile[] = [];
  for (const [object, bytes] of repository.readObjects([...paths.keys()])) {
    const path = paths.get(object);
    if (path !== undefined && holdsOneOf(bytes, ids)) states.push({ path, bytes });
  }
  return states;
};

/** Whether the start of a file may hold the line `id: …` of one of the ids; what is read for good decides. */
const holdsOneOf = (bytes: Uint8Array, ids: readonly string[]): boolean => {
  const start = new TextDecoder().decode(bytes.subarray(0, 2000));
  return ids.some((id) => start.includes(id));
};
