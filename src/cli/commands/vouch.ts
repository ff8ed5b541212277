import type { Analysis } from '../../pipeline.ts';
import { nearestName } from '../../records/nearest-name.ts';
import { contentDigest } from '../../views/compile-document.ts';
import { vouchDocument } from '../../views/vouch-document.ts';
import { drawSample, type Sample } from '../../vouch/sample.ts';
import { type VouchReport, vouch } from '../../vouch/vouch.ts';
import { analyseWithHistory } from '../analyse-with-history.ts';
import type { CommandRun, Request } from '../command.ts';
import { deliverDocument, deliverJson } from '../deliver-document.ts';
import { createHouseStyles } from '../house-styles.ts';
import { Refusal } from '../refusal.ts';
import { findFolder, historyOptions, readInputs } from '../technical-file.ts';

type DrawnSample = Sample & { readonly type: string };

const sizeOf = (text: string): number => {
  const size = Number(text);
  if (!Number.isInteger(size) || size < 1)
    throw new Refusal(
      `--sample is "${text}", expected a whole number from 1`,
      'For example: plinth vouch --sample 5',
    );
  return size;
};

const sampleOf = (request: Request, { graph, asOf }: Analysis): DrawnSample | undefined => {
  const size = request.options['sample'];
  if (size === undefined) return undefined;
  const type = request.options['type'] ?? 'design-input';
  if (!graph.types.has(type)) {
    const near = nearestName(type, [...graph.types.keys()]);
    throw new Refusal(
      `there is no record type "${type}"`,
      near ? `Did you mean "${near}"?` : `Use one of: ${[...graph.types.keys()].join(', ')}.`,
    );
  }
  const population = [...graph.records.values()]
    .filter((record) => record.type === type && record.status !== 'retired')
    .map((record) => record.id);
  if (population.length === 0)
    throw new Refusal(`there are no records of type ${type}`, 'Name another type with --type.');
  return { ...drawSample(population, sizeOf(size), request.options['seed'] ?? asOf), type };
};

const reportOn = (id: string, analysis: Analysis): VouchReport => {
  const report = vouch(id, analysis);
  if (report) return report;
  const near = nearestName(id, [...analysis.graph.records.keys()]);
  throw new Refusal(
    `there is no record ${id}`,
    near ? `Did you mean ${near}?` : 'Name a record of the technical file.',
  );
};

/** Version of the JSON form is in its field `version`. A field may be added; none changes its meaning without a new number. */
export const run: CommandRun = async (request, terminal) => {
  const folder = findFolder(request.options['in'], terminal);
  const analysis = analyseWithHistory(
    readInputs(folder, request, terminal),
    historyOptions(folder, request, terminal),
  );
  const sample = sampleOf(request, analysis);
  const ids = sample ? sample.ids : [...new Set(request.arguments)];
  if (sample && request.arguments.length > 0)
    throw new Refusal('an id and --sample were both given', 'Name records, or have a sample drawn.');
  if (ids.length === 0)
    throw new Refusal(
      'no record was named',
      'Name one (plinth vouch DI-01), or have a sample drawn (--sample 5).',
    );
  const reports = ids.map((id) => reportOn(id, analysis));
  if (request.options['format'] === 'json')
    deliverJson(
      { form: 'plinth-vouch', version: 1, asOf: analysis.asOf, ...(sample ? { sample } : {}), reports },
      request,
      terminal,
    );
  else
    await deliverDocument(
      vouchDocument({
        reports,
        ...(sample ? { sample } : {}),
        project: analysis.project.fields,
        graph: analysis.graph,
        contentDigest: contentDigest(analysis),
        asOf: analysis.asOf,
        toolVersion: analysis.toolVersion,
      }),
      request,
      terminal,
      () => createHouseStyles(folder.path, analysis),
    );
  return reports.some((report) => report.breaks.length > 0) ? 1 : 0;
};
