import { readOwnVersion } from '../../host/own-files.ts';
import { comparePlans, type PlanComparison, reachesChance } from '../../planning/compare-plans.ts';
import { type ComparedPlan, unitsOf } from '../../planning/compared-plan.ts';
import { type ExpectedQuality, qualityOfSpread } from '../../planning/expected-quality.ts';
import { isKnownUnit } from '../../records/units.ts';
import { planDocument } from '../../views/plan-document.ts';
import type { CommandRun, Request } from '../command.ts';
import { deliverDocument, deliverJson } from '../deliver-document.ts';
import { limitOptions, neededShare, numberOption, shareOption } from '../number-options.ts';
import { Refusal } from '../refusal.ts';

/** The quality that the options tell of: a fraction, or mean and spread against limits; undefined where they tell of none. */
const expectedOf = (request: Request): ExpectedQuality | undefined => {
  const fraction = shareOption(request, 'fraction');
  const mean = numberOption(request, 'mean');
  const standardDeviation = numberOption(request, 'sd');
  const limits = limitOptions(request);
  const given = ['mean', 'sd', 'lower', 'upper'].filter((name) => request.options[name] !== undefined);
  if (fraction !== undefined) {
    if (given.length > 0)
      throw new Refusal(
        `--fraction and --${given[0]} were both given`,
        'Give the expected fraction, or the expected mean and standard deviation with a limit.',
      );
    return { fraction };
  }
  if (given.length === 0) return undefined;
  if (
    mean === undefined ||
    standardDeviation === undefined ||
    !(given.includes('lower') || given.includes('upper'))
  )
    throw new Refusal(
      `--${given.join(', --')} alone ${given.length === 1 ? 'does' : 'do'} not tell the expected quality`,
      'Give --mean, --sd and at least one of --lower and --upper, all in one unit; or --fraction.',
    );
  if (!(standardDeviation > 0))
    throw new Refusal(
      `--sd is ${request.options['sd']}, expected a number above 0`,
      'Give the standard deviation of earlier units of the same kind.',
    );
  return qualityOfSpread({ mean, standardDeviation, ...limits });
};

const unitOf = (request: Request): string => {
  const unit = request.options['unit'];
  if (unit !== undefined && !isKnownUnit(unit))
    throw new Refusal(`unknown unit "${unit}"`, 'Write it as a UCUM code, for example N or mm.');
  return unit ?? '1';
};

/** A plan as data: without its curve, which the points of the report hold. */
const planData = (plan: ComparedPlan, { chance, cheapest }: PlanComparison): object => {
  const { acceptance: _, sign: __, risk, chance: passes, ...rest } = plan;
  const reaches = reachesChance(plan, chance);
  return {
    ...rest,
    units: unitsOf(plan),
    consumerRisk: risk,
    ...(passes === undefined ? {} : { probabilityOfPassing: passes, reachesChance: reaches }),
    cheapest: plan === cheapest,
  };
};

/** Version of the JSON form is in its field `version`. A field may be added; none changes its meaning without a new number. */
export const run: CommandRun = async (request, terminal) => {
  const statement = {
    confidence: neededShare(request, 'confidence'),
    reliability: neededShare(request, 'reliability'),
  };
  const chance = neededShare(request, 'chance');
  if (!(statement.confidence + chance > 1))
    throw new Refusal(
      `--chance is ${request.options['chance']}, expected more than ${Number((1 - statement.confidence).toPrecision(12))}, which is 1 - confidence`,
      'Give the probability with which a good product shall pass, such as 0.9.',
    );
  const expected = expectedOf(request);
  const unit = unitOf(request);
  const comparison = comparePlans({ statement, chance, ...(expected ? { expected } : {}) });
  if (request.options['format'] === 'json')
    deliverJson(
      {
        form: 'plinth-plan',
        version: 1,
        statement,
        chance,
        ...(expected ? { expected } : {}),
        ...(request.options['unit'] === undefined ? {} : { unit }),
        plans: comparison.plans.map((plan) => planData(plan, comparison)),
        unavailable: comparison.unavailable,
        operatingCharacteristic: comparison.points.map(({ share, acceptance }) => ({
          failing: share,
          probabilityOfPassing: acceptance,
        })),
      },
      request,
      terminal,
    );
  else
    await deliverDocument(
      planDocument({
        comparison,
        unit,
        written: {
          confidence: request.options['confidence'] ?? '',
          reliability: request.options['reliability'] ?? '',
        },
        figures: request.options['format'] === 'text' ? 'characters' : 'drawings',
        toolVersion: readOwnVersion(),
      }),
      request,
      terminal,
    );
  return 0;
};
