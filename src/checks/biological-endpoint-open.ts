import { addressing, evaluations, hasContact } from '../evidence/biological-contact.ts';
import { placeOf } from '../records/record.ts';
import { endpointRow, endpointSource } from '../regulation/biological-endpoints.ts';
import { type Draft, defineCheck } from './check.ts';

export const biologicalEndpointOpen = defineCheck({
  code: 'biological-endpoint-open',
  level: 'warning',
  title: 'An endpoint of the biological evaluation is not addressed',
  basis:
    'ISO 10993-1:2018 and ISO 10993-1:2025 (endpoints by contact and duration, from memory and public summaries); Regulation (EU) 2017/745 Annex I 10.1',
  explain:
    'A group of materials touches tissue for a time for which the tables of ISO 10993-1 list an endpoint, and the evaluation addresses it neither by a test nor by data nor by a rationale. Or the record itself plans the endpoint under `planned` and leaves it open; that is an error. Or the tables that Plinth holds have no row for this contact in the edition that was used; then a person reads the standard and lists its endpoints under `planned`. Where that is done, a note says that only the planned endpoints were looked at; a waiver with the name of the table that was read can answer it.\n\nThe tables are a starting point, and Plinth knows them from memory. An endpoint that is open in the report is one of the first questions of a reviewer.\n\nAddress the endpoint: not every one needs a test, but each needs an answer of the evaluator.',
  examines: 'groups with contact',
  subjects: ({ graph }) =>
    evaluations(graph).flatMap((evaluation) =>
      evaluation.fields.groups.flatMap((group, index) =>
        hasContact(group) ? [{ evaluation, group, index }] : [],
      ),
    ),
  judge: ({ evaluation, group, index }): readonly Draft[] => {
    const { edition, planned = [] } = evaluation.fields;
    const base = { place: placeOf(evaluation, 'groups', index, 'group'), records: [evaluation.id] };
    const row =
      group.duration === undefined
        ? undefined
        : endpointRow({ edition, device: group.device, tissue: group.tissue, duration: group.duration });
    const isOpen = (endpoint: string): boolean =>
      addressing(evaluation, group.group, endpoint).length === 0 &&
      // The name of a group that there is not has a finding of its own, and may mean this one.
      !evaluation.fields.endpoints.some(
        (each) =>
          each.endpoint === endpoint &&
          each.groups.some((name) => !evaluation.fields.groups.some((known) => known.group === name)),
      );
    const hint = 'Address it under "endpoints" by a test, by data or by a rationale of the evaluator.';
    if (!row && planned.length === 0 && group.duration !== undefined)
      return [
        {
          ...base,
          message: `${evaluation.id}: Plinth has no row for ${group.tissue}, ${group.duration}, in the edition ${edition} of ${endpointSource.standard}, and the record plans no endpoints`,
          hint: 'Read the endpoints in the standard and list them under "planned".',
        },
      ];
    const onlyPlanned: readonly Draft[] =
      row || group.duration === undefined
        ? []
        : [
            {
              ...base,
              level: 'note',
              message: `${evaluation.id}: Plinth has no row for ${group.tissue}, ${group.duration}, in the edition ${edition} of ${endpointSource.standard}; for the group "${group.group}" only the endpoints under "planned" are looked at`,
              hint: 'Let the evaluator compare "planned" with the table of the standard.',
              data: { group: group.group, edition },
            },
          ];
    return [
      ...onlyPlanned,
      ...planned.filter(isOpen).map(
        (endpoint): Draft => ({
          ...base,
          place: placeOf(evaluation, 'planned', planned.indexOf(endpoint)),
          level: 'error',
          message: `${evaluation.id} plans the endpoint "${endpoint}" and does not address it for the group "${group.group}"`,
          hint,
          data: { endpoint, group: group.group },
        }),
      ),
      ...(row?.endpoints ?? [])
        .filter((endpoint) => !planned.some((each) => each === endpoint) && isOpen(endpoint))
        .map(
          (endpoint): Draft => ({
            ...base,
            message: `${evaluation.id}: the endpoint "${endpoint}" is not addressed for the group "${group.group}" (${group.tissue}, ${group.duration}; ${endpointSource.standard}:${edition})`,
            hint,
            data: { endpoint, group: group.group },
          }),
        ),
    ];
  },
});
