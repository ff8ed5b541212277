import type { Document } from '../document/model.ts';
import type { NavigationGroup, Site, SitePage } from '../document/site.ts';
import { deliverableName } from '../submission/deliverable-name.ts';
import { contentDigest } from '../views/compile-document.ts';
import { changePage } from './change-page.ts';
import { conformityPage } from './conformity-page.ts';
import { deliverableFiles } from './deliverables.ts';
import { documentPage, documentsPage } from './document-pages.ts';
import { findingPage } from './finding-page.ts';
import { matrixPage } from './matrix-page.ts';
import { missingPage } from './missing-page.ts';
import { approvalsPage, overviewPage } from './overview-page.ts';
import { hasPlan, planPage } from './plan-page.ts';
import { rawDataListPage, rawDataPage } from './raw-data-page.ts';
import { recordPages } from './record-page.ts';
import { riskPage } from './risk-page.ts';
import { searchEntries } from './search-entries.ts';
import { allFindings, type SiteContext, type SiteInputs, siteContext } from './site-context.ts';
import { typePage, typesPage } from './type-page.ts';

const caution =
  'This copy was compiled from records. It does not say that the device is safe or that the file complies with any law or standard; that is for qualified people to decide, by the law and the standards themselves.';

const impactPath = 'impact.html';

const navigationOf = (context: SiteContext, impact: Document | undefined): readonly NavigationGroup[] => {
  const { graph, byType, documents, raw } = context;
  return [
    {
      entries: [
        { title: 'Overview', path: 'index.html' },
        { title: 'Trace matrix', path: 'matrix.html' },
        { title: 'Risks', path: 'risks.html' },
        { title: 'Law and standards', path: 'conformity.html' },
        { title: 'Documents', path: 'documents.html', count: documents.length },
        { title: 'Raw data', path: 'raw.html', count: raw.size },
        ...(hasPlan(context) ? [{ title: 'Plan and gates', path: 'plan.html' }] : []),
        { title: 'Changes and reviews', path: 'changes.html' },
        ...(impact ? [{ title: 'Impact', path: impactPath }] : []),
        { title: 'Approvals', path: 'approvals.html' },
        { title: 'Findings', path: 'findings.html', count: allFindings(context).length },
      ],
    },
    {
      title: 'Records',
      entries: [...graph.types.values()]
        .filter((type) => byType.has(type.type))
        .map((type) => ({
          title: type.plural,
          path: context.typePaths.get(type.type) ?? '',
          count: byType.get(type.type)?.length ?? 0,
        })),
    },
  ];
};

function* rawCopies({
  raw,
  files,
}: SiteContext): Generator<{ readonly path: string; readonly bytes: Uint8Array }> {
  for (const { file, filePath } of raw.values()) {
    const bytes = files.get(file)?.bytes;
    if (bytes) yield { path: filePath, bytes };
  }
}

function* pagesOf(context: SiteContext, impact: Document | undefined): Generator<SitePage> {
  yield overviewPage(context);
  yield matrixPage(context);
  yield riskPage(context);
  yield conformityPage(context);
  yield documentsPage(context);
  yield rawDataListPage(context);
  if (hasPlan(context)) yield planPage(context);
  yield changePage(context, impact ? impactPath : undefined);
  if (impact)
    yield {
      path: impactPath,
      title: impact.title,
      under: impactPath,
      parts: [{ kind: 'document', document: impact }],
    };
  yield approvalsPage(context);
  yield findingPage(context);
  yield typesPage(context);
  for (const type of context.graph.types.values())
    if (context.byType.has(type.type)) yield typePage(type, context);
  yield* recordPages(context);
  for (const compiled of context.documents) yield documentPage(compiled, context);
  for (const raw of context.raw.values()) yield rawDataPage(raw, context);
}

/** The browsable copy of a technical file: its pages, files and search. `impact` is the report on a change, where one was compared. */
export const buildSite = (inputs: SiteInputs, impact?: Document): Site => {
  const context = siteContext(inputs);
  const { project, origin, toolVersion, asOf, graph } = inputs;
  const { device } = project.fields;
  return {
    title: device.name,
    ...(device.code ? { code: device.code } : {}),
    organisation: device.maker,
    language: project.fields.language ?? 'en-GB',
    asOf,
    caution,
    origin: [
      { name: 'Stated as of', value: asOf },
      { name: 'Content digest', value: contentDigest(inputs) },
      ...(origin
        ? [
            {
              name: 'Git revision',
              value: origin.isDirty ? `${origin.commit}, with changes that are in no commit` : origin.commit,
            },
          ]
        : []),
      { name: 'Compiled with', value: `plinth ${toolVersion}` },
    ],
    navigation: navigationOf(context, impact),
    recordTitles: new Map([...graph.records.values()].map(({ id, title }) => [id, title])),
    recordPaths: context.recordPaths,
    deliverablePaths: new Map(
      context.documents.map((compiled) => [
        deliverableName(compiled.record, compiled.each),
        context.documentPaths.get(compiled) ?? '',
      ]),
    ),
    sources: new Map([
      ...[...graph.records.values()].map(
        ({ id, file }) => [context.recordPaths.get(id) ?? '', file] as const,
      ),
      ...context.documents.map(
        (compiled) => [context.documentPaths.get(compiled) ?? '', compiled.record.file] as const,
      ),
    ]),
    missing: (path) => missingPage(path, context),
    pages: () => pagesOf(context, impact),
    files: function* () {
      yield* rawCopies(context);
      yield* deliverableFiles(context);
    },
    search: () => searchEntries(context),
  };
};
