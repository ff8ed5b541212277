import type { Inline, Row } from '../document/model.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  spanning,
  standingText,
  text,
  verdictText,
} from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

type Material = RecordOf<'material'>;

/** A record of evidence with what it says: its verdict, else its standing, else its status. */
const evidenceLine = (id: string, { graph, evidence, standing }: ViewContext): readonly Inline[] => {
  const record = graph.record(id);
  if (!record) return [text(id), text(' (there is no such record)', { tone: 'bad' })];
  const verdict = evidence.get(id)?.verdict;
  const state = standing.get(id)?.state;
  return [
    reference(id),
    text(' '),
    verdict ? verdictText(verdict) : state ? standingText(state) : text(record.status, { tone: 'quiet' }),
  ];
};

/** Cells of a material that stand once, however many parts are made of it. */
const materialCells = (material: Material, rows: number, context: ViewContext) => {
  const { supplier_grade: grade, contact, duration, evidence = [] } = material.fields;
  return [
    spanning(rows, reference(material.id), text(` ${material.title}`)),
    spanning(rows, ...(grade === undefined ? [nothing('not stated')] : [text(grade)])),
    spanning(rows, text(contact)),
    spanning(rows, ...(duration === undefined ? [nothing('not stated')] : [text(duration)])),
    spanning(rows, ...orNothing(onLines(evidence.map((id) => evidenceLine(id, context))), 'no evidence')),
  ];
};

const rowsOf = (material: Material, context: ViewContext): readonly Row[] => {
  const parts = [...(material.fields.part ?? [])].sort(compareIds);
  const shown: readonly (string | undefined)[] = parts.length > 0 ? parts : [undefined];
  return shown.map((id, index): Row => {
    const part = id === undefined ? undefined : context.graph.record(id);
    return {
      ...(index === 0 ? { recordId: material.id } : {}),
      cells: [
        ...(index === 0 ? materialCells(material, shown.length, context).slice(0, 1) : []),
        cell(
          ...(id === undefined ? [nothing('no part')] : [reference(id), text(part ? ` ${part.title}` : '')]),
        ),
        ...(index === 0 ? materialCells(material, shown.length, context).slice(1) : []),
      ],
    };
  });
};

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const materials = context.graph.recordsOf('material').filter((each) => isShown(each, options));
  if (materials.length === 0) return { blocks: [notice('There are no materials yet.')] };
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(options),
        columns: [
          { title: 'Material', width: 22 },
          { title: 'Part', width: 20 },
          { title: 'Grade', width: 18 },
          { title: 'Contact', width: 20 },
          { title: 'Duration', width: 16 },
          { title: 'Evidence', width: 16 },
        ],
        rows: materials.flatMap((material) => rowsOf(material, context)),
        description: 'Materials by part: grade, contact, duration and evidence.',
      },
    ],
  };
};

export const materialsView: View = { name: 'materials', draw };
