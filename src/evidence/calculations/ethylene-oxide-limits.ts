/** How long a device is in contact with the body: up to 24 h, up to 30 d, longer (ISO 10993-1). */
export const contactDurations = ['limited', 'prolonged', 'permanent'] as const;

export type ContactDuration = (typeof contactDurations)[number];

export const residueSubstances = ['ethylene oxide', 'ethylene chlorohydrin'] as const;

export type ResidueSubstance = (typeof residueSubstances)[number];

export const residuePeriods = ['first day', 'first 30 days', 'lifetime', 'surface'] as const;

export type ResiduePeriod = (typeof residuePeriods)[number];

/** A limit for an adult of 70 kg. */
export interface ResidueLimit {
  readonly substance: ResidueSubstance;
  readonly period: ResiduePeriod;
  /** The shortest contact for which the limit counts; it counts for all longer ones too. */
  readonly from: ContactDuration;
  readonly limit: number;
  readonly unit: string;
  readonly provenance: 'public quotation' | 'from memory';
}

/**
 * Allowable limits of ISO 10993-7:2008, clause 4.3: doses in mg for each patient, and the tolerable contact limit of the
 * surface. Special cases (oxygenators, blood separators, purifiers, drapes and others) have limits of their own and are left
 * out. Those marked as from memory must be checked against the standard before anybody relies on them.
 */
export const residueLimits: readonly ResidueLimit[] = [
  {
    substance: 'ethylene oxide',
    period: 'first day',
    from: 'limited',
    limit: 4,
    unit: 'mg',
    provenance: 'public quotation',
  },
  {
    substance: 'ethylene oxide',
    period: 'first 30 days',
    from: 'prolonged',
    limit: 60,
    unit: 'mg',
    provenance: 'public quotation',
  },
  {
    substance: 'ethylene oxide',
    period: 'lifetime',
    from: 'permanent',
    limit: 2500,
    unit: 'mg',
    provenance: 'public quotation',
  },
  {
    substance: 'ethylene oxide',
    period: 'surface',
    from: 'limited',
    limit: 10,
    unit: 'ug/cm2',
    provenance: 'public quotation',
  },
  {
    substance: 'ethylene chlorohydrin',
    period: 'first day',
    from: 'limited',
    limit: 9,
    unit: 'mg',
    provenance: 'from memory',
  },
  {
    substance: 'ethylene chlorohydrin',
    period: 'first 30 days',
    from: 'prolonged',
    limit: 60,
    unit: 'mg',
    provenance: 'from memory',
  },
  {
    substance: 'ethylene chlorohydrin',
    period: 'lifetime',
    from: 'permanent',
    limit: 10_000,
    unit: 'mg',
    provenance: 'from memory',
  },
  {
    substance: 'ethylene chlorohydrin',
    period: 'surface',
    from: 'limited',
    limit: 5000,
    unit: 'ug/cm2',
    provenance: 'public quotation',
  },
];

/** The limits that count for a contact duration: those of all shorter ones too. */
export const limitsForContact = (contact: ContactDuration): readonly ResidueLimit[] =>
  residueLimits.filter(({ from }) => contactDurations.indexOf(from) <= contactDurations.indexOf(contact));

/** The adult behind the limits, kg (ISO 10993-7:2008, from memory). */
export const adultMass = 70;

/**
 * A dose limit for a patient of another mass: in proportion, and never above the limit for adults. The limit of the surface
 * does not depend on mass. The amendment of 2019 has figures of its own for small patients; check against it.
 *
 * Source: ISO 10993-7:2008, clause 4.3 (the proportion from memory).
 */
export const limitForMass = ({ limit, period }: ResidueLimit, mass: number): number =>
  period === 'surface' ? limit : limit * Math.min(1, mass / adultMass);
