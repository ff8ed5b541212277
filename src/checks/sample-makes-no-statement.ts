import { confidenceReliability } from '../evidence/number-text.ts';
import { statesReliability } from '../evidence/sample-plan.ts';
import { requiredByPolicy } from '../evidence/sampling-policy.ts';
import { placeOf } from '../records/record.ts';
import { type Draft, defineCheck } from './check.ts';

/** Whether a text names a severity class as a word of its own. */
const namesClass = (text: string, name: string): boolean => text.split(/[^\p{L}\p{N}]+/u).includes(name);

export const sampleMakesNoStatement = defineCheck({
  code: 'sample-makes-no-statement',
  level: 'note',
  title: 'A test that stands for a risk says nothing of the share of units',
  basis: 'ISO 13485:2016 7.3.6 (sample size with rationale); the sampling policy in force',
  explain:
    'The protocol verifies an input that helps to control a risk, and its method makes no statement of confidence and reliability: a checklist, results of a laboratory, all units of a sample, a mean or a comparison. The sampling policy cannot be held against it, so when a severity is raised no plan becomes "too small" here. Whether the sample still does is for a person to say.\n\nSay under `sampling.exception` why this sample does for the severity that the message names: the standard of the test sets the number, another test shows the share, or the characteristic does not vary from unit to unit. It names the severity that it was given for, such as S3, so that a graver one asks for it again.',
  examines: 'protocols of methods without a statement of confidence and reliability',
  subjects: ({ graph, project }) =>
    (project.fields.sampling_policy ?? []).length === 0
      ? []
      : graph
          .recordsOf('verification-protocol')
          .filter(
            (protocol) => protocol.status !== 'retired' && !statesReliability(protocol.fields.sampling.kind),
          ),
  judge: (protocol, { graph, project }): readonly Draft[] => {
    const order = project.fields.risk?.severities.map((severity) => severity.class) ?? [];
    const asked = graph
      .targets(protocol.id, 'verifies', 'design-input')
      .filter((input) => input.status !== 'retired')
      .flatMap((input) => {
        const found = requiredByPolicy(graph, project.fields, input.id);
        return found?.risk === undefined ? [] : [{ ...found, risk: found.risk, input }];
      })
      .toSorted((a, b) => order.indexOf(b.severity) - order.indexOf(a.severity));
    const [worst] = asked;
    if (!worst) return [];
    const reason = (protocol.fields.sampling.exception ?? '').trim();
    // The reason names the severity that it was given for, so that a graver one asks for it again.
    const named = order.filter((name) => namesClass(reason, name));
    const covers = named.some((name) => order.indexOf(name) >= order.indexOf(worst.severity));
    if (covers) return [];
    const said =
      reason === ''
        ? 'and makes no statement of confidence and reliability'
        : named.length === 0
          ? 'and its reason for a sample without confidence and reliability names no severity'
          : `and its reason for a sample without confidence and reliability speaks of ${named.join(', ')}`;
    return [
      {
        place: placeOf(protocol, 'sampling', 'kind'),
        message: `${protocol.id} stands for ${worst.risk} (severity ${worst.severity}, for which the sampling policy asks for ${confidenceReliability(worst.confidence, worst.reliability)}) ${said}`,
        hint: 'Say under "sampling.exception" why this sample does for that severity, with its class, or plan a method that makes the statement.',
        records: [protocol.id, worst.input.id, worst.risk],
        data: { severity: worst.severity, path: worst.path },
      },
    ];
  },
});
