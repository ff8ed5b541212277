import { confidenceReliability } from '../evidence/number-text.ts';
import { statesReliability } from '../evidence/sample-plan.ts';
import { type PolicyRequirement, requiredByPolicy } from '../evidence/sampling-policy.ts';
import { smallestPlanWords } from '../evidence/smallest-plan.ts';
import { placeOf } from '../records/record.ts';
import { type CheckContext, defineCheck } from './check.ts';

/** Where a method lacks its figures and data are there, the evaluation reports the missing figures. */
const isReportedWithData = ({ evidence }: CheckContext, protocol: string): boolean =>
  [...evidence.values()].some(
    (found) =>
      found.protocol === protocol &&
      found.findings.some((finding) => finding.code === 'method-inputs-missing'),
  );

/** The ids from the risk down to the protocol. */
const pathTo = (protocol: string, path: readonly string[]): string => {
  const at = path.indexOf(protocol);
  return (at === -1 ? [...path, protocol] : path.slice(0, at + 1)).join(' → ');
};

const isStricter = (a: PolicyRequirement, b: PolicyRequirement): boolean =>
  a.reliability > b.reliability || (a.reliability === b.reliability && a.confidence > b.confidence);

export const samplingBelowPolicy = defineCheck({
  code: 'sampling-below-policy',
  level: 'error',
  title: 'A sampling plan shows less than the sampling policy asks',
  basis:
    'ISO 13485:2016 7.3.6 (sample size with rationale); the figures are those of the sampling policy in force',
  explain:
    'No regulation says how sure a test must be; the maker decides it by severity, in the sampling policy, and then has to keep to it. This protocol verifies an input that helps to control a risk for which the policy asks more confidence or reliability than is planned. The message shows the way from the risk to the protocol; the severity is that before control, so that a control cannot shrink the test of itself.\n\nPlan what the policy asks. Where there are grounds for less, because another test shows the same at full strength, write them under `sampling.exception`; they are approved with the protocol. Methods that make no statement of confidence and reliability, such as checklists, are not judged here.',
  examines: 'sampling plans that state confidence and reliability',
  subjects: ({ graph }) =>
    [...graph.recordsOf('verification-protocol'), ...graph.recordsOf('validation-protocol')].filter(
      (protocol) => protocol.status !== 'retired' && statesReliability(protocol.fields.sampling.kind),
    ),
  judge: (protocol, context) => {
    const { graph, project } = context;
    const { confidence, reliability, size, exception } = protocol.fields.sampling;
    if (exception !== undefined) return [];
    const isStated = confidence !== undefined && reliability !== undefined;
    if (!isStated && isReportedWithData(context, protocol.id)) return [];
    const missed = graph
      .targets(protocol.id, 'verifies', 'design-input')
      .filter((input) => input.status !== 'retired')
      .flatMap((input) => {
        const asked = requiredByPolicy(graph, project.fields, input.id);
        const isMet =
          asked && (confidence ?? 0) >= asked.confidence && (reliability ?? 0) >= asked.reliability;
        return asked && !isMet ? [{ input, asked }] : [];
      });
    const [worst] = [...missed].sort((a, b) =>
      isStricter(a.asked, b.asked) ? -1 : isStricter(b.asked, a.asked) ? 1 : 0,
    );
    if (!worst) return [];
    const { input, asked } = worst;
    const wanted = confidenceReliability(asked.confidence, asked.reliability);
    const units = size === undefined ? '' : ` with ${size} units`;
    const planned = isStated
      ? `plans ${confidenceReliability(confidence, reliability)}${units}`
      : 'states no confidence and reliability';
    const why = asked.risk
      ? `severity ${asked.severity}: ${pathTo(protocol.id, asked.path)}`
      : `no risk linked to ${input.id}`;
    const risk = asked.risk === undefined ? undefined : graph.record(asked.risk);
    const results = [...context.evidence.values()].filter((result) => result.protocol === protocol.id);
    const field = (confidence ?? 0) < asked.confidence ? 'confidence' : 'reliability';
    return [
      {
        place: placeOf(protocol, 'sampling', field),
        message: `${protocol.id} ${planned}, the sampling policy asks for ${wanted} (${why})`,
        hint: `Plan ${wanted}: the smallest plan is ${smallestPlanWords(protocol.fields.sampling, asked, results)}. Or give the reason under "exception".`,
        records: [protocol.id, input.id, ...(asked.risk ? [asked.risk] : [])],
        related: risk
          ? [{ place: placeOf(risk, 'severity'), message: `${risk.id} has severity ${asked.severity}` }]
          : [],
        data: { confidence: asked.confidence, reliability: asked.reliability, path: asked.path },
      },
    ];
  },
});
