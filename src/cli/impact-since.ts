import type { Document } from '../document/model.ts';
import { impactDocument } from '../views/impact-document.ts';
import type { Request, Terminal } from './command.ts';
import { impactBetween } from './impact-between.ts';
import { stateOpener } from './states.ts';

/** The report on what changed since an earlier state, for the browsable copy; undefined where `--since` names none. */
export const impactSince = async (
  folder: { readonly path: string; readonly shown: string },
  request: Request,
  terminal: Terminal,
): Promise<Document | undefined> => {
  const since = request.options['since'];
  if (since === undefined) return undefined;
  const states = stateOpener(folder, request, terminal);
  const before = states.named(since);
  const after = states.workTree();
  return impactDocument({
    impact: await impactBetween(before, after, states),
    project: after.analysis.project.fields,
    graph: after.analysis.graph,
    asOf: after.analysis.asOf,
    toolVersion: after.analysis.toolVersion,
  });
};
