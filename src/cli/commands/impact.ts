import type { Analysis } from '../../pipeline.ts';
import { nearestName } from '../../records/nearest-name.ts';
import type { RecordOf } from '../../records/record.ts';
import { impactDocument } from '../../views/impact-document.ts';
import type { CommandRun } from '../command.ts';
import { deliverDocument, deliverJson } from '../deliver-document.ts';
import { createHouseStyles } from '../house-styles.ts';
import { impactBetween } from '../impact-between.ts';
import { Refusal } from '../refusal.ts';
import { stateOpener } from '../states.ts';
import { findFolder } from '../technical-file.ts';

const designChange = (analysis: Analysis, id: string): RecordOf<'design-change'> => {
  const found = analysis.graph.recordOf('design-change', id);
  if (found) return found;
  const known = analysis.graph.recordsOf('design-change').map((record) => record.id);
  const near = nearestName(id, known);
  throw new Refusal(
    `there is no design change ${id} in the later state`,
    near
      ? `Did you mean ${near}?`
      : known.length > 0
        ? `Use one of: ${known.join(', ')}.`
        : 'Add one with "plinth new design-change".',
  );
};

/**
 * Version of the JSON form is in its field `version`. A field may be added; none changes its meaning without a new number.
 */
export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.options['in'], terminal);
  const states = stateOpener(folder, request, terminal);
  const [first = 'HEAD', second] = request.arguments;
  const before = states.named(first);
  const after = second === undefined ? states.workTree() : states.named(second);
  const changeId = request.options['change'];
  const change = changeId === undefined ? undefined : designChange(after.analysis, changeId);
  const impact = await impactBetween(before, after, states);
  if (request.options['format'] === 'json') {
    deliverJson(
      { form: 'plinth-impact', version: 1, ...(change ? { change: change.id } : {}), ...impact },
      request,
      terminal,
    );
    return 0;
  }
  await deliverDocument(
    impactDocument({
      impact,
      project: after.analysis.project.fields,
      graph: after.analysis.graph,
      asOf: after.analysis.asOf,
      toolVersion: after.analysis.toolVersion,
      ...(change ? { change } : {}),
    }),
    request,
    terminal,
    () => createHouseStyles(folder.path, after.analysis),
  );
  return 0;
};
