import type { Row } from '../document/model.ts';
import { compareIds } from '../graph/trace-graph.ts';
import type { RecordOf } from '../records/record.ts';
import {
  cell,
  nothing,
  notice,
  onLines,
  orNothing,
  reference,
  references,
  spanning,
  standingText,
  text,
  verdictText,
} from './cells.ts';
import { type CommonOptions, captionOf, isShown, type View, type ViewContext } from './view.ts';

/** Protocols that validate a need. */
const protocolsOf = (
  need: RecordOf<'user-need'>,
  options: CommonOptions,
  { graph }: ViewContext,
): readonly RecordOf<'validation-protocol'>[] =>
  graph
    .sources(need.id, 'validates', 'validation-protocol')
    .filter((protocol) => isShown(protocol, options))
    .toSorted((a, b) => compareIds(a.id, b.id));

const draw: View['draw'] = (body, context) => {
  const options = body as CommonOptions;
  const { graph, evidence, standing } = context;
  const needs = graph.recordsOf('user-need').filter((need) => isShown(need, options));
  if (needs.length === 0) return { blocks: [notice('There are no user needs yet.')] };
  const rows = needs.flatMap((need): readonly Row[] => {
    const protocols = protocolsOf(need, options, context);
    const lines: readonly (RecordOf<'validation-protocol'> | undefined)[] =
      protocols.length > 0 ? protocols : [undefined];
    return lines.map((protocol, index) => {
      const records = protocol
        ? graph
            .sources(protocol.id, 'reports', 'validation-record')
            .filter((record) => isShown(record, options))
        : [];
      return {
        ...(index === 0 ? { recordId: need.id } : {}),
        cells: [
          ...(index === 0
            ? [
                spanning(lines.length, ...onLines([[reference(need.id)], [text(need.title)]])),
                spanning(lines.length, text(need.fields.needed_by.join(', '))),
              ]
            : []),
          cell(
            ...(protocol
              ? onLines([[reference(protocol.id)], [text(protocol.title)]])
              : [nothing('no validation')]),
          ),
          cell(...orNothing(references(records.map(({ id }) => id)), 'not carried out')),
          cell(
            ...orNothing(
              onLines(
                records.map(({ id }) => {
                  const result = evidence.get(id);
                  return result
                    ? [verdictText(result.verdict), text(`: ${result.reason}`)]
                    : [nothing('no verdict')];
                }),
              ),
              'not yet',
            ),
          ),
          ...(index === 0
            ? [spanning(lines.length, standingText(standing.get(need.id)?.state ?? 'unplanned'))]
            : []),
        ],
      };
    });
  });
  return {
    blocks: [
      {
        kind: 'table',
        ...captionOf(options),
        columns: [
          { title: 'User need', width: 22 },
          { title: 'Needed by', width: 12 },
          { title: 'Validation protocol', width: 20 },
          { title: 'Record', width: 9 },
          { title: 'Result', width: 32 },
          { title: 'Standing', width: 11 },
        ],
        rows,
        description:
          'Each row follows one user need to the study that validates it, the record and its verdict.',
      },
    ],
  };
};

/** From each user need to the study with users that validates it. */
export const validationMatrix: View = { name: 'validation-matrix', draw };
