// Generated from schemas/ by "npm run fields". Do not edit.

/**
 * A calculation that shows a design input: ageing, tolerance stack-up, sterilisation dose and the like.
 */
export interface AnalysisFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'analysis';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The design inputs that the analysis shows.
   *
   * Items: Id of a record of type design-input.
   */
  verifies: string[];
  /**
   * Design outputs, standards and records that the calculation takes values from.
   *
   * Items: Id of a record of type *.
   */
  uses?: string[];
  /**
   * Day of the analysis.
   */
  date?: string;
  /**
   * The file of a logger, for calculations that need one (temperature-excursion).
   */
  data?: {
    /**
     * Path of the raw-data file, from the folder of this record.
     */
    file: string;
    /**
     * Digest of the file's bytes, 64 hexadecimal digits. A changed raw-data file is a finding.
     */
    sha256: string;
    /**
     * Column with moments such as 2026-01-12 08:30, or with numbers and a unit of time in the heading. Default: time.
     */
    time?: string;
    /**
     * Column with the temperature, in °C unless the heading gives another unit. Default: temperature.
     */
    temperature?: string;
    /**
     * Column with the relative humidity in per cent. Default: relative humidity, where there is such a column.
     */
    relative_humidity?: string;
    /**
     * Sign between the whole and the fraction. Default: a point.
     */
    decimal?: '.' | ',';
  };
  /**
   * States of the units for which the analysis speaks. Needed where a design input names conditions for a limit.
   *
   * Items: State of the units, as the design input writes it.
   */
  conditions?: string[];
  /**
   * What the data must show, one entry for each characteristic.
   *
   * Items: Acceptance of one characteristic.
   */
  acceptance?: {
    /**
     * Characteristic of the design input.
     */
    characteristic: string;
    /**
     * Unit as a UCUM code; common forms such as °C and µm are understood.
     */
    unit?: string;
    /**
     * Smallest value allowed.
     */
    lower?: number;
    /**
     * Largest value allowed.
     */
    upper?: number;
    /**
     * For what is inspected rather than measured: what must be true.
     */
    criterion?: string;
    /**
     * How several readings of one unit become the one value that counts for it.
     */
    per_unit?: 'maximum' | 'minimum' | 'mean';
  }[];
  /**
   * Evidence method (kind) and its inputs. "plinth explain NAME" tells what each kind needs.
   */
  calculation: {
    /**
     * Evidence method: accelerated-ageing, temperature-excursion, tolerance-stack-up, formula, sterilisation-dose, residues or endotoxin. "plinth explain NAME" tells the inputs of each.
     */
    kind: string;
    /**
     * Ageing: how many times as fast a reaction runs for each 10 °C.
     */
    q10?: number;
    /**
     * Accelerated ageing: temperature in the chamber, °C.
     */
    ageing_temperature?: number;
    /**
     * Ageing: temperature of storage that the result is given for, °C.
     */
    reference_temperature?: number;
    /**
     * Accelerated ageing: days in the chamber.
     */
    days?: number;
    /**
     * Accelerated ageing: days of real time that are claimed.
     */
    claim_days?: number;
    /**
     * Accelerated ageing: first day in the chamber.
     */
    from?: string;
    /**
     * Accelerated ageing: last day in the chamber.
     */
    to?: string;
    /**
     * Ageing: lowest glass transition, softening or melting of the materials, °C. Ageing has to stay 10 °C below it.
     */
    transition_temperature?: number;
    /**
     * Accelerated ageing: relative humidity in the chamber, per cent. Not part of the factor; stated as a caution.
     */
    relative_humidity?: number;
    /**
     * Accelerated ageing: when units went into real-time storage and after how many months they are tested. The due dates are printed; the last one must reach the claim.
     */
    real_time?: {
      /**
       * First day of storage.
       */
      start: string;
      /**
       * Months after which units are taken out and tested, ascending.
       *
       * Items: Months after the start.
       */
      pulls: number[];
    };
    /**
     * Temperature excursion: the time above it is reported, °C.
     */
    upper_temperature?: number;
    /**
     * Temperature excursion: longest time allowed between two readings, h.
     */
    maximum_gap?: number;
    /**
     * Temperature excursion: lowest relative humidity that the materials stand, per cent.
     */
    humidity_lower?: number;
    /**
     * Temperature excursion: highest relative humidity that the materials stand, per cent.
     */
    humidity_upper?: number;
    /**
     * Tolerance stack-up: sum or product.
     */
    form?: 'sum' | 'product';
    /**
     * Tolerance stack-up: unit of the result, for readers; the limit is in its own unit.
     */
    unit?: string;
    /**
     * Tolerance stack-up: factor of a product.
     */
    constant?: number;
    /**
     * Tolerance stack-up: unit of the constant as a UCUM code.
     */
    constant_unit?: string;
    /**
     * Tolerance stack-up: the characteristics of design outputs that add up or multiply.
     *
     * Items: One characteristic of the stack-up.
     */
    terms?: {
      /**
       * Id of the design output that has the characteristic.
       */
      output: string;
      /**
       * Name of the characteristic of the design output.
       */
      characteristic: string;
      /**
       * Product: power of the characteristic, -1 for a divisor. Default: 1.
       */
      power?: number;
      /**
       * Sum: change of the result per unit, -1 where it is subtracted. Default: 1.
       */
      sensitivity?: number;
      /**
       * How the value is spread over its tolerance in a simulation: normal, uniform or triangular.
       */
      distribution?: 'normal' | 'uniform' | 'triangular';
    }[];
    /**
     * Formula: the result in terms of the variables, such as pi/4 * d^2 * p.
     */
    formula?: string;
    /**
     * Formula: what each name stands for: a characteristic of a design output (output, characteristic), or a value with its unit and tolerance.
     *
     * Items: One variable of the formula.
     */
    variables?: {
      /**
       * Name in the formula: letters, digits and underscores.
       */
      name: string;
      /**
       * Id of the design output that has the characteristic.
       */
      output?: string;
      /**
       * Name of the characteristic of the design output.
       */
      characteristic?: string;
      /**
       * Nominal value, where the variable is no characteristic of a design output.
       */
      value?: number;
      /**
       * Unit of the value as a UCUM code; none for a bare number.
       */
      unit?: string;
      /**
       * Deviation allowed upwards.
       */
      plus?: number;
      /**
       * Deviation allowed downwards, as an amount.
       */
      minus?: number;
      /**
       * Where the value comes from, for readers.
       */
      source?: string;
      /**
       * How the value is spread over its tolerance in a simulation: normal, uniform or triangular.
       */
      distribution?: 'normal' | 'uniform' | 'triangular';
    }[];
    /**
     * Tolerance stack-up and formula: what the verdict rests on. Default: worst-case.
     */
    judge_by?: 'worst-case' | 'root-sum-square' | 'simulation';
    /**
     * Tolerance stack-up and formula: distribution of every input in a simulation that names none of its own. Default: normal.
     */
    distribution?: 'normal' | 'uniform' | 'triangular';
    /**
     * Simulation: standard deviations in half of a tolerance, for normal inputs. Default: 3.
     */
    sigma_level?: number;
    /**
     * Simulation: number of draws. Default: 100000.
     */
    trials?: number;
    /**
     * Simulation: start of the generator, so that it gives the same figures everywhere. Default: 1890.
     */
    seed?: number;
    /**
     * Simulation: share of the results that must lie within the limits.
     */
    share_within?: number;
    /**
     * Simulation and sterilisation dose: confidence of the bound that is judged. Default: 0.95.
     */
    confidence?: number;
    /**
     * Sterilisation dose: half-cycle (overkill) or decimal-reduction.
     */
    approach?: 'half-cycle' | 'decimal-reduction';
    /**
     * Sterilisation dose: probability of a survivor on a unit that is allowed. Default: 1e-6.
     */
    sterility_assurance_level?: number;
    /**
     * Sterilisation dose: spores on each biological indicator.
     */
    population?: number;
    /**
     * Sterilisation dose: largest number of organisms expected on a unit before sterilisation.
     */
    bioburden?: number;
    /**
     * Sterilisation dose: exposure of the routine cycle, in the unit of the other exposures.
     */
    exposure?: number;
    /**
     * Sterilisation dose: unit of all exposures as a UCUM code, min for a cycle of gas, kGy for a dose. For readers; the verdict rests on their ratio.
     */
    exposure_unit?: string;
    /**
     * Sterilisation dose: exposure of the half cycle.
     */
    half_cycle_exposure?: number;
    /**
     * Sterilisation dose: number of half cycles run.
     */
    half_cycles?: number;
    /**
     * Sterilisation dose: biological indicators in all half cycles together.
     */
    indicators?: number;
    /**
     * Sterilisation dose: how many of them grew.
     */
    indicators_with_growth?: number;
    /**
     * Sterilisation dose: exposure in which the population falls to a tenth.
     */
    decimal_reduction_time?: number;
    /**
     * Sterilisation dose: exposures of a fraction-negative study, ascending.
     *
     * Items: One exposure.
     */
    steps?: {
      /**
       * Exposure of this step.
       */
      exposure: number;
      /**
       * Indicators exposed.
       */
      replicates: number;
      /**
       * Indicators without growth.
       */
      negative: number;
    }[];
    /**
     * Residues: limited (up to 24 h), prolonged (up to 30 d) or permanent. Endotoxin: general, cerebrospinal fluid, or dose for what is given by dose.
     */
    contact?: 'limited' | 'prolonged' | 'permanent' | 'general' | 'cerebrospinal fluid' | 'dose';
    /**
     * Residues: what was found, one entry for each substance and period.
     *
     * Items: One measured residue.
     */
    measured?: {
      /**
       * What was measured.
       */
      substance: 'ethylene oxide' | 'ethylene chlorohydrin';
      /**
       * Time over which the dose counts, or the surface.
       */
      period: 'first day' | 'first 30 days' | 'lifetime' | 'surface';
      /**
       * Dose from one device, or amount on the surface.
       */
      amount: number;
      /**
       * Unit of the amount: a mass, or a mass on an area for the surface.
       */
      unit: string;
    }[];
    /**
     * Residues: devices used together on one patient. Endotoxin: devices pooled in the extract.
     */
    devices?: number;
    /**
     * Residues: mass of the smallest patient in kg, where it is below 70.
     */
    body_mass?: number;
    /**
     * Residues: the record that shows that the surface does not irritate, in place of the limit of the surface.
     */
    irritation_shown_by?: string;
    /**
     * Endotoxin: in the undiluted extract, EU/mL.
     */
    concentration?: number;
    /**
     * Endotoxin: true where nothing was found and the concentration is the limit of detection.
     */
    below_detection?: boolean;
    /**
     * Endotoxin: rinse of all pooled devices together, mL.
     */
    volume?: number;
    /**
     * Endotoxin: pyrogenic threshold K for what is given by dose, EU/kg in an hour.
     */
    threshold?: number;
    /**
     * Endotoxin: largest dose M, mL/kg in an hour.
     */
    dose?: number;
    /**
     * Endotoxin: how many times the extract was diluted.
     */
    dilution?: number;
    /**
     * Endotoxin: sensitivity of the reagent, or lowest point of the curve, EU/mL.
     */
    sensitivity?: number;
    /**
     * Endotoxin: share of an added amount that was found again, per cent.
     */
    spike_recovery?: number;
  };
  /**
   * What the report says. The tool recomputes it from the raw data and reports a difference.
   */
  result: 'pass' | 'fail';
}

/**
 * A question that an authority or a notified body asked on a submission, the answer, and what was changed for it.
 */
export interface AuthorityQuestionFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'authority-question';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The authority or notified body that asked.
   */
  body: string;
  /**
   * Its letter and the number of the question.
   */
  reference?: string;
  /**
   * Day on which the question came in.
   */
  received: string;
  /**
   * Day by which it is to be answered.
   */
  due?: string;
  /**
   * The submission that it was asked on.
   */
  submission?: string;
  /**
   * Records and documents that the question is about.
   *
   * Items: Id of a record.
   */
  concerns?: string[];
  /**
   * Role that prepares the answer.
   */
  owner?: string;
  /**
   * Day on which the answer was sent. Open until then.
   */
  answered?: string;
  /**
   * Documents and records that were changed for the answer.
   *
   * Items: One document or record.
   */
  changed?: {
    /**
     * Id of the document or record.
     */
    record: string;
    /**
     * Revision before.
     */
    from?: string;
    /**
     * Revision that the answer names.
     */
    to?: string;
    /**
     * What was changed.
     */
    what: string;
  }[];
  /**
   * Why nothing was changed.
   */
  no_change?: string;
  /**
   * Day on which the body accepted the answer.
   */
  closed?: string;
}

/**
 * The decision of people that the benefit outweighs a residual risk that the criteria don't accept (ISO 14971:2019 7.4).
 */
export interface BenefitRiskFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'benefit-risk';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The risks it decides on.
   *
   * Items: Id of a record of type risk.
   */
  decides: string[];
  /**
   * What was decided.
   */
  decision: 'benefit outweighs risk' | 'benefit does not outweigh risk';
  /**
   * Day of the decision.
   */
  date?: string;
}

/**
 * Plan and outcome of the biological evaluation: which materials touch which tissue for how long, which endpoints follow, and by which test, data or rationale a qualified evaluator addressed each.
 */
export interface BiologicalEvaluationFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'biological-evaluation';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The standard of the file that the evaluation follows.
   */
  follows: string;
  /**
   * Edition of the standard to which contact and endpoints were determined.
   */
  edition: string;
  /**
   * Document number and date of the plan that preceded the tests.
   */
  plan?: string;
  /**
   * Day of the evaluation report.
   */
  date?: string;
  /**
   * Qualified person who evaluated, with the qualification.
   */
  evaluator?: string;
  /**
   * Materials that touch the same tissue in the same way for the same time.
   *
   * Items: One group.
   */
  groups: {
    /**
     * Name of the group, used by the endpoints.
     */
    group: string;
    /**
     * Materials of the group.
     *
     * Items: Id of a record.
     */
    materials: string[];
    /**
     * What is touched. none: neither the patient nor anything that reaches the patient.
     */
    tissue:
      | 'none'
      | 'intact skin'
      | 'intact mucosa'
      | 'breached surface'
      | 'internal tissue or bone'
      | 'blood path, indirect'
      | 'circulating blood';
    /**
     * Kind of device, by which the edition of 2018 divides.
     */
    device?: 'surface' | 'externally communicating' | 'implant';
    /**
     * Whether it touches by itself or through something that it gives off to, such as a graft.
     */
    contact?: 'direct' | 'indirect';
    /**
     * Contact time: limited (to 24 h), prolonged (to 30 d), long-term. Repeated uses add up.
     */
    duration?: 'limited' | 'prolonged' | 'long-term';
    /**
     * Why this tissue and this time, for a group without contact why there is none.
     */
    reason?: string;
  }[];
  /**
   * Endpoints that the plan names beyond those of the tables, or in place of them.
   *
   * Items: An endpoint.
   */
  planned?: (
    | 'physical and chemical information'
    | 'cytotoxicity'
    | 'sensitisation'
    | 'irritation'
    | 'material-mediated pyrogenicity'
    | 'acute systemic toxicity'
    | 'subacute toxicity'
    | 'subchronic toxicity'
    | 'chronic toxicity'
    | 'implantation effects'
    | 'haemocompatibility'
    | 'genotoxicity'
    | 'carcinogenicity'
    | 'reproductive and developmental toxicity'
    | 'degradation'
  )[];
  /**
   * How each endpoint was addressed.
   *
   * Items: One endpoint for one or several groups.
   */
  endpoints: {
    /**
     * Which endpoint.
     */
    endpoint:
      | 'physical and chemical information'
      | 'cytotoxicity'
      | 'sensitisation'
      | 'irritation'
      | 'material-mediated pyrogenicity'
      | 'acute systemic toxicity'
      | 'subacute toxicity'
      | 'subchronic toxicity'
      | 'chronic toxicity'
      | 'implantation effects'
      | 'haemocompatibility'
      | 'genotoxicity'
      | 'carcinogenicity'
      | 'reproductive and developmental toxicity'
      | 'degradation';
    /**
     * Groups for which it was addressed.
     *
     * Items: Name of a group.
     */
    groups: string[];
    /**
     * By a test, by data that exist already, or by a rationale of the evaluator.
     */
    addressed_by: 'test' | 'data' | 'rationale';
    /**
     * Records that hold the results or the data.
     *
     * Items: Id of a record.
     */
    evidence?: string[];
    /**
     * The rationale in short, or why existing data hold for this device.
     */
    reason?: string;
    /**
     * Report of the laboratory.
     */
    report?: {
      /**
       * Number of the report.
       */
      number: string;
      /**
       * Standard of the test, without the year.
       */
      standard?: string;
      /**
       * Edition to which the test was done.
       */
      edition?: string;
      /**
       * Where this is not the edition in the list of standards: what the difference means for the result.
       */
      gap?: string;
    };
    /**
     * For tests: what was tested.
     */
    sample?: {
      /**
       * The final device as it is sold, a part of it, or a material.
       */
      of: 'final device' | 'part' | 'material';
      /**
       * Whether it had gone through the sterilisation of the final device.
       */
      sterilised: boolean;
      /**
       * Grade of the material tested, for parts and materials.
       */
      grade?: string;
      /**
       * Lot of the sample.
       */
      lot?: string;
      /**
       * Why the sample stands for the final, sterilised device where it is not one.
       */
      argument?: string;
    };
    /**
     * What the evaluator concludes.
     */
    conclusion?: string;
  }[];
}

/**
 * A statement that the label, the instructions or a brochure make about the device, word for word, with the evidence that bears it.
 */
export interface ClaimFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'claim';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The statement as users read it. Documents take it with :claim[CM-01], or repeat it word for word.
   */
  wording: string;
  /**
   * Labels, instructions and documents that make the statement. For an output with a document that holds its words, either may hold the statement.
   *
   * Items: Id of a document or a design output.
   */
  stated_in?: string[];
  /**
   * Records that bear the statement: at least one with a verdict. Outputs, materials, evaluations and documents may be named beside it.
   *
   * Items: Id of a record that bears the statement.
   */
  evidence?: string[];
  /**
   * What the statement says in numbers. The evidence must have been accepted against limits that are as strict.
   *
   * Items: One characteristic with its limits.
   */
  limits?: {
    /**
     * What is measured, named as in the acceptance of the evidence.
     */
    characteristic: string;
    /**
     * UCUM unit.
     */
    unit?: string;
    /**
     * At least.
     */
    lower?: number;
    /**
     * At most.
     */
    upper?: number;
    /**
     * States of the units for which the statement holds, each of which some evidence must have tested. Default: any.
     *
     * Items: A condition as protocols name it.
     */
    conditions?: string[];
  }[];
  /**
   * Absolute and comparative words of the statement, each with the reason for which people let it stand.
   *
   * Items: One word or phrase.
   */
  words?: {
    /**
     * As it stands in the statement.
     */
    word: string;
    /**
     * Why it may stand.
     */
    reason: string;
    /**
     * For a comparison: with what.
     */
    compared_with?: string;
  }[];
  /**
   * What the statement does not say, and what else a reader of the file has to know.
   */
  note?: string;
}

/**
 * Which class the device is in, by which rule, and which conformity assessment follows: decided by people, kept with every rule that was considered.
 */
export interface ClassificationFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'classification';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Records that the reading rests on, such as the use specification.
   *
   * Items: Id of a record of any type.
   */
  rests_on?: string[];
  /**
   * Continuous use as intended (Annex VIII 1 and 3.6).
   */
  duration: {
    /**
     * Transient: less than 60 minutes. Short term: 60 minutes to 30 days. Long term: more than 30 days.
     */
    term: 'transient' | 'short term' | 'long term';
    /**
     * Longest continuous use that is intended.
     */
    longest: {
      /**
       * Number.
       */
      value: number;
      /**
       * Unit of time (UCUM).
       */
      unit: string;
    };
    /**
     * How the time was counted.
     */
    reason?: string;
  };
  /**
   * Every rule of Annex VIII that could apply, with the answer.
   *
   * Items: One rule.
   */
  rules: {
    /**
     * Number of the rule, 1 to 22.
     */
    rule: number;
    /**
     * What of the rule could meet the device.
     */
    reading?: string;
    /**
     * Whether the rule applies: decided by people.
     */
    applies: true | false | 'to decide';
    /**
     * Why it applies or not, by which property of the device.
     */
    answer?: string;
    /**
     * Class that the rule gives, where it applies or would apply.
     */
    class?: 'I' | 'IIa' | 'IIb' | 'III';
  }[];
  /**
   * Number of the rule that decides the class.
   */
  relied_on: number;
  /**
   * How the implementing rules of Annex VIII chapter II were read.
   *
   * Items: One implementing rule.
   */
  implementing_rules?: {
    /**
     * Number in Annex VIII, 3.1 to 3.7.
     */
    clause: string;
    /**
     * How it was applied.
     */
    answer: string;
  }[];
  /**
   * Class of the device in the European Union: decided by people.
   */
  class: 'I' | 'IIa' | 'IIb' | 'III';
  /**
   * What brings a notified body in for a device of class I.
   *
   * Items: A feature.
   */
  features?: ('sterile' | 'measuring function' | 'reusable surgical instrument')[];
  /**
   * The procedure chosen (Article 52).
   */
  route: {
    /**
     * Paragraph that asks for it.
     */
    article: string;
    /**
     * Procedure that was chosen.
     */
    procedure:
      | 'declaration of conformity alone'
      | 'Annex IX'
      | 'Annex IX chapters I and III'
      | 'Annex X with Annex XI'
      | 'Annex XI part A'
      | 'Annexes II and III with Annex XI section 10'
      | 'Annexes II and III with Annex XI section 18';
    /**
     * Part of a notified body in it. Limited: only the aspects that Article 52(7) names.
     */
    notified_body: 'none' | 'limited' | 'full';
    /**
     * What is assessed of the technical documentation.
     */
    sampling?: string;
    /**
     * Why this procedure.
     */
    reason?: string;
  };
  /**
   * Class and route in the United States, as far as they are looked up: for a regulatory professional to decide.
   */
  us?: {
    /**
     * Classification regulation.
     */
    regulation?: string;
    /**
     * As looked up by the maker.
     */
    product_code?: string;
    /**
     * Class by the regulation.
     */
    class?: 'I' | 'II' | 'III' | 'to decide';
    /**
     * Route to the market.
     */
    route: 'exempt' | '510(k)' | 'De Novo' | 'premarket approval' | 'to decide';
    /**
     * On what this rests and what is open.
     */
    statement?: string;
  };
  /**
   * Who decided, and when.
   */
  decided: {
    /**
     * Role of who decided.
     */
    role: string;
    /**
     * Day of the decision.
     */
    date: string;
  };
}

/**
 * A dated table of clauses that came with the technical file: another edition of a table of the tool, or a table of one's own. Files of the folder clause-tables, in YAML.
 */
export interface ClauseTableFields {
  /**
   * Key of the table: that of a table of the tool for another edition of it, or a new one.
   */
  key: string;
  /**
   * ISO date of the publication that the rows were taken from, or its year and month.
   */
  edition: string;
  /**
   * What the table lists.
   */
  title: string;
  /**
   * The publication that the rows were taken from.
   */
  source: string;
  /**
   * What kind of text it is. Default: law.
   */
  kind?: 'law' | 'standard' | 'table of contents';
  /**
   * Part of the ids of records that answer the table, such as 13485 in GR-13485-7.3. Default: the key.
   */
  short?: string;
  /**
   * Whether clauses of the source are left out. A clause that such a table does not have gives a warning, not an error. Default: false.
   */
  extract?: boolean;
  /**
   * Who took the rows from the source, when, and how they were compared with it.
   */
  provenance: string;
  /**
   * The clauses, in the order of the source.
   *
   * Items: One clause.
   */
  rows: {
    /**
     * Number as printed, without its full stop.
     */
    clause: string;
    /**
     * What the clause is about, in your own words.
     */
    title: string;
    /**
     * The clause that heads it. Default: its number without the last letter in brackets or the last number.
     */
    parent?: string;
    /**
     * What to know before relying on the row.
     */
    note?: string;
  }[];
}

/**
 * Which units see which conditioning before which test: a tree from the lots over sterilisation, ageing and transport to the protocols, with numbers of units and dates.
 */
export interface ConditioningPlanFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'conditioning-plan';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Design inputs on sterility, packaging, transport and shelf life that the plan is made for.
   *
   * Items: Id of a record of type design-input.
   */
  supports?: string[];
  /**
   * Shelf life that the ageing is planned for, with its unit.
   */
  claim?: string;
  /**
   * Lots that the units come from.
   *
   * Items: One lot.
   */
  lots: {
    /**
     * Lot number.
     */
    lot: string;
    /**
     * Units of the lot that the plan may use.
     */
    units: number;
  }[];
  /**
   * Steps of conditioning. Each takes its units from one step before it.
   *
   * Items: One step with the units that go through it.
   */
  nodes: {
    /**
     * Name of the step, used by what follows.
     */
    node: string;
    /**
     * Node that the units come from. Without it they come from the lots.
     */
    from?: string;
    /**
     * What is done.
     */
    step:
      | 'production'
      | 'sterilisation'
      | 'accelerated ageing'
      | 'real-time ageing'
      | 'storage extremes'
      | 'transport'
      | 'other';
    /**
     * Units that go through the step.
     */
    units: number;
    /**
     * First day.
     */
    begins?: string;
    /**
     * Last day, planned or real.
     */
    ends?: string;
    /**
     * Record that specifies the step: process, method or equipment.
     */
    by?: string;
    /**
     * For ageing: the analysis that holds the run and the schedule of pulls against the claim.
     */
    analysis?: string;
    /**
     * For accelerated ageing: what is planned. Days in the chamber follow by the ageing factor.
     */
    ageing?: {
      /**
       * Factor for 10 °C.
       */
      q10: number;
      /**
       * Temperature of the chamber in °C.
       */
      temperature: number;
      /**
       * Temperature of storage in °C.
       */
      reference_temperature: number;
      /**
       * Days in the chamber.
       */
      days: number;
    };
    /**
     * For real-time ageing: when units are taken out, and how many.
     *
     * Items: One pull.
     */
    pulls?: {
      /**
       * Months after the first day.
       */
      months: number;
      /**
       * Units taken out.
       */
      units: number;
    }[];
    /**
     * What else the reader has to know.
     */
    note?: string;
  }[];
  /**
   * Which protocol takes how many units from which node.
   *
   * Items: One draw.
   */
  draws: {
    /**
     * The protocol that tests the units.
     */
    protocol: string;
    /**
     * The record of the test, once there is one.
     */
    record?: string;
    /**
     * Name of the node.
     */
    node: string;
    /**
     * Units taken.
     */
    units: number;
    /**
     * Protocol whose units are used once more, so that they count only there.
     */
    again?: string;
    /**
     * Readings that one unit gives, where it is more than one: strips of a pack.
     */
    readings_per_unit?: number;
    /**
     * Units that give one reading, where it is more than one: a pool.
     */
    units_per_reading?: number;
    /**
     * What else the reader has to know.
     */
    note?: string;
  }[];
}

/**
 * A change to released design, with its significance and what must be shown again (ISO 13485:2016 7.3.9).
 */
export interface DesignChangeFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'design-change';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Day of the decision.
   */
  date: string;
  /**
   * Outputs that change, from which revision to which.
   *
   * Items: One output.
   */
  changes: {
    /**
     * The design output.
     */
    output: string;
    /**
     * Revision before.
     */
    from: string;
    /**
     * Revision after.
     */
    to: string;
  }[];
  /**
   * Effect on function, performance, safety, use and intended use.
   */
  significance: string;
  /**
   * Records whose content the change touches.
   *
   * Items: Id of a record of type *.
   */
  affected?: string[];
  /**
   * For each verification record on the earlier revision: repeat it, or why it still holds.
   *
   * Items: One decision.
   */
  decisions?: {
    /**
     * The verification or validation record.
     */
    record: string;
    /**
     * What was decided.
     */
    decision: 'repeat' | 'still valid';
    /**
     * Why.
     */
    reason: string;
  }[];
}

/**
 * A requirement with a limit that can be measured or inspected (ISO 13485:2016 7.3.3).
 */
export interface DesignInputFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'design-input';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The needs, risks, risk controls, standards and laws that ask for this input.
   *
   * Items: Id of a record of type user-need, risk, risk-control, standard, legal-requirement.
   */
  derives_from: string[];
  /**
   * What must hold, one entry for each characteristic.
   *
   * Items: A limit on one characteristic. Either lower, upper or both with a unit, or a criterion in words that an inspection can answer.
   */
  limits: {
    /**
     * What is limited. Protocols name the same characteristic.
     */
    characteristic: string;
    /**
     * Unit as a UCUM code; common forms such as °C and µm are understood.
     */
    unit?: string;
    /**
     * Smallest value allowed.
     */
    lower?: number;
    /**
     * Largest value allowed.
     */
    upper?: number;
    /**
     * For what is inspected rather than measured: what must be true.
     */
    criterion?: string;
    /**
     * What the limit holds for: each unit, or the mean of all units (a declared content, a shift between groups). Default: each unit.
     */
    of?: 'each unit' | 'mean';
    /**
     * States of the units in which the limit must be shown. Default: fresh.
     *
     * Items: State of the units when the limit applies.
     */
    conditions?: string[];
  }[];
  /**
   * How the input is to be shown.
   *
   * Items: Kind of verification.
   */
  method: ('test' | 'analysis' | 'inspection' | 'demonstration' | 'validation')[];
}

/**
 * A part, label, process or procedure that the design process delivers (ISO 13485:2016 7.3.4).
 */
export interface DesignOutputFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'design-output';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The design inputs that this output answers.
   *
   * Items: Id of a record of type design-input.
   */
  satisfies: string[];
  /**
   * What sort of output it is.
   */
  kind: 'part' | 'label' | 'instructions for use' | 'packaging' | 'process' | 'materials list' | 'procedure';
  /**
   * Drawing or specification number.
   */
  drawing?: string;
  /**
   * Released revision of the drawing or specification.
   */
  revision: string;
  /**
   * Dimensions and properties with tolerances.
   *
   * Items: One toleranced characteristic.
   */
  characteristics?: {
    /**
     * Name of the characteristic.
     */
    name: string;
    /**
     * Nominal value.
     */
    nominal: number;
    /**
     * Upper tolerance, not negative.
     */
    plus?: number;
    /**
     * Lower tolerance, not negative.
     */
    minus?: number;
    /**
     * Unit as a UCUM code; common forms such as °C and µm are understood.
     */
    unit: string;
    /**
     * Essential for the safe and proper use of the device.
     */
    essential?: boolean;
  }[];
  /**
   * For labels and instructions: which particular of the law stands where.
   *
   * Items: One particular.
   */
  particulars?: {
    /**
     * Clause of the clause table.
     */
    clause: string;
    /**
     * What the artwork or text says.
     */
    content: string;
  }[];
  /**
   * For labels and instructions for use: the document that holds their words.
   */
  wording?: string;
  /**
   * For instructions for use: residual risks told to the user.
   *
   * Items: One residual risk with its statement.
   */
  discloses?: {
    /**
     * The residual risk.
     */
    risk: string;
    /**
     * The wording in the instructions.
     */
    statement: string;
  }[];
  /**
   * For labels and instructions: the CE marking as it stands on the artwork, or why it does not (Article 20, from memory: read it).
   */
  ce_marking?: {
    /**
     * Number of the notified body that stands beside the marking, where one takes part.
     */
    number?: string;
    /**
     * Why the marking, or the number beside it, is not there.
     */
    reason?: string;
  };
  /**
   * Unique device identifier in GS1 form: with application identifiers in parentheses, or as a scanner hands it over, with the group separator as \x1d in double quotes.
   */
  udi?: string;
  /**
   * For labels: what is printed in plain text beside the UDI. The UDI must say the same.
   */
  identification?: {
    /**
     * Packaging level of the label, in the words of device.identifiers in plinth.yaml.
     */
    level?: string;
    /**
     * Lot as printed.
     */
    lot?: string;
    /**
     * Serial number as printed.
     */
    serial?: string;
    /**
     * Date of manufacture as printed: a day or a month.
     */
    manufactured?: string;
    /**
     * Use-by date as printed: a day or a month.
     */
    use_by?: string;
  };
  /**
   * For labels and instructions: the symbols that they carry, each by the number that its standard gives it.
   *
   * Items: One symbol with the particulars that it answers.
   */
  symbols?: {
    /**
     * Reference number in the standard.
     */
    symbol: string;
    /**
     * Designation of the standard, without the year. Default: ISO 15223-1.
     */
    standard?: string;
    /**
     * Clauses whose particulars it tells. An empty list for a symbol that the law does not ask for.
     *
     * Items: Clause of the clause table.
     */
    answers: string[];
    /**
     * Text that stands beside or in the symbol.
     */
    beside?: string;
  }[];
  /**
   * For labels and instructions: languages in which the words are released (BCP 47).
   *
   * Items: One language.
   */
  languages?: string[];
}

/**
 * The stages of design and development, who answers for each, and what must hold at the gate at its end (ISO 13485:2016 7.3.2). What was found at a gate is recorded by the design review held there.
 */
export interface DesignPlanFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'design-plan';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * How outputs are traced to inputs.
   */
  tracing?: string;
  /**
   * What is needed, with the competence of the people.
   */
  resources?: string;
  /**
   * The stages in their order.
   *
   * Items: One stage, with the gate at its end.
   */
  stages: {
    /**
     * Name of the stage.
     */
    stage: string;
    /**
     * What is done: design, verification, validation, transfer.
     *
     * Items: One activity.
     */
    activities?: string[];
    /**
     * Roles that answer for the stage.
     *
     * Items: A role.
     */
    responsible?: string[];
    /**
     * First and last day planned for the stage.
     */
    planned?: {
      /**
       * First day.
       */
      from: string;
      /**
       * Last day.
       */
      to: string;
    };
    /**
     * The decision at the end of the stage: what must hold before the next one is relied on.
     */
    gate: {
      /**
       * Short name by which design reviews name it.
       */
      gate: string;
      /**
       * Day by which the gate is planned to be passed.
       */
      planned: string;
      /**
       * Days that were planned earlier, with why they were moved.
       *
       * Items: One earlier day.
       */
      planned_before?: {
        /**
         * The day that was planned.
         */
        day: string;
        /**
         * Why it was moved.
         */
        reason: string;
      }[];
      /**
       * Roles that decide whether the gate is passed.
       *
       * Items: A role.
       */
      decided_by?: string[];
      /**
       * What must hold at the gate.
       *
       * Items: One condition. What it asks for is read from the records wherever a computer can tell.
       */
      conditions: {
        /**
         * Short name by which design reviews name it.
         */
        condition: string;
        /**
         * The condition in words.
         */
        says: string;
        /**
         * How it is known. approved: records have the status approved and approvals in force. shown: their standing is passed. free of findings: no finding of a code, or of a level and above, stands. actions closed: the actions of all design reviews are closed. judged by people: only the review can say.
         */
        asks: 'approved' | 'shown' | 'free of findings' | 'actions closed' | 'judged by people';
        /**
         * Record types that it speaks of: all their records that are not retired.
         *
         * Items: A record type.
         */
        types?: string[];
        /**
         * Single records and documents that it speaks of.
         *
         * Items: Id of a record.
         */
        records?: string[];
        /**
         * Codes of findings that must not stand.
         *
         * Items: Code of a finding.
         */
        codes?: string[];
        /**
         * No finding of this level or a graver one may stand.
         */
        level?: 'error' | 'warning' | 'note';
      }[];
    };
  }[];
}

/**
 * A review at a planned stage, with those present and what must follow (ISO 13485:2016 7.3.5).
 */
export interface DesignReviewFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'design-review';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Stage of the design plan.
   */
  stage: string;
  /**
   * Day of the review.
   */
  date: string;
  /**
   * Records reviewed.
   *
   * Items: Id of a record of type *.
   */
  reviewed?: string[];
  /**
   * Roles present.
   *
   * Items: A role.
   */
  present: string[];
  /**
   * Role of the person without direct responsibility for the stage.
   */
  independent_reviewer?: string;
  /**
   * The gate of a design plan that this review held: what was found for each condition, and what was decided.
   */
  gate?: {
    /**
     * The design plan.
     */
    plan: string;
    /**
     * Name of the gate in the plan.
     */
    gate: string;
    /**
     * What was decided.
     */
    outcome: 'passed' | 'not passed';
    /**
     * Day of the decision. Default: the day of the review.
     */
    decided?: string;
    /**
     * What was found for each condition of the gate.
     *
     * Items: One condition of the plan.
     */
    conditions: {
      /**
       * Its name in the plan.
       */
      condition: string;
      /**
       * Whether it held on the day of the decision.
       */
      met: boolean;
      /**
       * Where it was not met: why the gate was passed nevertheless, and what follows.
       */
      reason?: string;
    }[];
  };
  /**
   * What must follow.
   *
   * Items: One action.
   */
  actions?: {
    /**
     * What must be done.
     */
    action: string;
    /**
     * Role that does it.
     */
    owner: string;
    /**
     * Day by which.
     */
    due: string;
    /**
     * Day it was done. Open until then.
     */
    closed?: string;
  }[];
}

/**
 * Something that was not done or did not turn out as the protocol says, with its assessment.
 */
export interface DeviationFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'deviation';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The records concerned.
   *
   * Items: Id of a record of type verification-record, validation-record.
   */
  against: string[];
  /**
   * Day it was noticed.
   */
  date?: string;
  /**
   * What it means for the result.
   */
  impact: string;
  /**
   * What was done.
   */
  disposition?: string;
  /**
   * Day on which the deviation was closed. Open until then.
   */
  closed?: string;
}

/**
 * Prose with view blocks that is compiled to a deliverable.
 */
export interface DocumentFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'document';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Document number of the maker. Default: the id.
   */
  number?: string;
  /**
   * Revision of the document.
   */
  revision: string;
  /**
   * What changed from revision to revision, the oldest first. Shown as the last section, "Revision history".
   *
   * Items: One revision of the document.
   */
  revisions?: {
    /**
     * The revision.
     */
    revision: string;
    /**
     * Day of the revision.
     */
    date: string;
    /**
     * What is new in this revision, and why.
     */
    change: string;
  }[];
  /**
   * Second line of the cover.
   */
  subtitle?: string;
  /**
   * Who reads it.
   */
  audience?: string;
  /**
   * For material that the maker gives to users besides label and instructions: its statements are held against the claims of the file.
   */
  kind?: 'promotional material' | 'training material';
  /**
   * Day that the document is stated for. Default: the as-of date.
   */
  date?: string;
  /**
   * The document is written once for each record of a type. In its text :each[title] is a field of that record; in view blocks the id `each` stands for it, and `each/reports` for what it names in that field.
   */
  for_each?: {
    /**
     * Record type.
     */
    type: string;
    /**
     * Only records with one of these statuses. Default: all but retired.
     *
     * Items: A status.
     */
    status?: ('draft' | 'in review' | 'approved')[];
  };
  /**
   * Whether the Word file has a contents list. Default: where the document has headings enough for one.
   */
  contents?: boolean;
  /**
   * Word file for this document, in place of the one that plinth.yaml names. Its path is seen from plinth.yaml.
   */
  house_style?: string;
  /**
   * Which files are written.
   *
   * Items: A file format.
   */
  formats?: ('docx' | 'html' | 'csv')[];
}

/**
 * Measuring equipment with its calibrations (ISO 13485:2016 7.6).
 */
export interface EquipmentFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'equipment';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Number on the equipment.
   */
  tag: string;
  /**
   * What it measures, with range.
   */
  measures?: string;
  /**
   * Certificates with the days for which they hold, both included.
   *
   * Items: One certificate.
   */
  calibrations: {
    /**
     * Certificate number.
     */
    certificate: string;
    /**
     * First day.
     */
    from: string;
    /**
     * Last day.
     */
    to: string;
    /**
     * State in which the equipment was found at this calibration.
     */
    found?: 'in tolerance' | 'out of tolerance';
  }[];
}

/**
 * Ways in which items fail, with cause and effect: another way into the risk analysis. It holds no scores: acceptability goes by severity and probability of harm, which the risks estimate (ISO 14971:2019 5.4 and 5.5, from memory).
 */
export interface FailureModesFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'failure-modes';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * What the table covers, and what it leaves out.
   */
  scope?: string;
  /**
   * One entry for each failure mode.
   *
   * Items: One way in which an item can fail.
   */
  modes: {
    /**
     * Design output that is analysed. Give this or `item`.
     */
    output?: string;
    /**
     * What is analysed, where it is no design output of its own.
     */
    item?: string;
    /**
     * What the item has to do.
     */
    function: string;
    /**
     * How it can fail to do so.
     */
    failure_mode: string;
    /**
     * What brings the failure about.
     */
    cause: string;
    /**
     * What follows at the device and for people.
     */
    effect: string;
    /**
     * Risks that the effect leads to. Severity and probability of harm are estimated there.
     *
     * Items: Id of a record of type risk.
     */
    risks?: string[];
    /**
     * Why no harm can follow, where no risk is named.
     */
    no_harm?: string;
  }[];
}

/**
 * Units in use and events by period, from the device itself or a comparable one, held against the estimates of the risks (Regulation (EU) 2017/745 Annex I 3(e) and Annex III 1).
 */
export interface FieldDataFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'field-data';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The surveillance plan that the data belong to.
   */
  plan: string;
  /**
   * Whose experience it is.
   */
  device: {
    /**
     * The device of this file, or another one.
     */
    which: 'own' | 'comparable';
    /**
     * What the other device is.
     */
    description?: string;
    /**
     * Why its experience says something about this device.
     */
    reason?: string;
  };
  /**
   * First and last day of what was counted.
   */
  period: {
    /**
     * First day.
     */
    from: string;
    /**
     * Last day.
     */
    to: string;
  };
  /**
   * The CSV file with a row for each period, in order of time, and what its columns mean.
   */
  data: {
    /**
     * Path of the file, from the folder of this record.
     */
    file: string;
    /**
     * Digest of the file's bytes, 64 hexadecimal digits. A changed file is a finding.
     */
    sha256: string;
    /**
     * Column that names the period of each row.
     */
    period: string;
    /**
     * Column with the number of uses in each period, in the denominator of the risk criteria.
     */
    uses: string;
    /**
     * What one count of the uses column is, in the words of the risk criteria. Default: per use.
     */
    denominator?: string;
    /**
     * What the columns of events count.
     *
     * Items: One column of events.
     */
    columns: {
      /**
       * Heading in the file.
       */
      column: string;
      /**
       * Id of a record of type risk.
       */
      risk: string;
      /**
       * What an event is: the hazardous situation occurred, or it led to the harm.
       */
      counts: 'situation' | 'harm';
      /**
       * The estimate that it is held against. Default: after control. A comparable device without the controls speaks of the estimate before.
       */
      estimate?: 'before' | 'after';
    }[];
  };
  /**
   * Why counts before this record no longer speak of the device as it is, such as a change that met the risk. Without it, records that count the same are taken together.
   */
  starts_anew?: string;
  /**
   * What is known of events that nobody reports, and how it was taken into account. No factor is applied by itself.
   */
  under_reporting?: string;
  /**
   * When people looked at the data, and which risks they looked at again because of a threshold, a trend or a contradiction. What they concluded stands under the heading Assessment.
   */
  assessed?: {
    /**
     * Day of the assessment.
     */
    date: string;
    /**
     * Who took part.
     *
     * Items: A role.
     */
    roles: string[];
    /**
     * Risks that were looked at again.
     *
     * Items: Id of a record of type risk.
     */
    risks?: string[];
  };
}

/**
 * A clause of a clause table, alone or with its sub-clauses as a table: whether each applies, how it is met and where the evidence is.
 */
export interface LegalRequirementFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'legal-requirement';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Key of the clause table in plinth.yaml.
   */
  table: string;
  /**
   * Clause number as in the table; where sub-clauses follow, the clause that heads them.
   */
  clause: string;
  /**
   * Whether the clause applies to this device: decided by people. A proposal (proposed yes, proposed no, to decide) stands until a person has confirmed or changed it.
   */
  applicable: true | false | 'proposed yes' | 'proposed no' | 'to decide';
  /**
   * Why it does not apply, or how the clause is read.
   */
  reason?: string;
  /**
   * How the clause is met.
   */
  solution?: string;
  /**
   * How conformity with the clause is shown.
   *
   * Items: A method.
   */
  method?: (
    | 'design'
    | 'test'
    | 'analysis'
    | 'inspection'
    | 'simulated use'
    | 'clinical evaluation'
    | 'risk management'
    | 'information supplied'
    | 'quality system'
    | 'literature'
  )[];
  /**
   * Standards applied to meet the clause.
   *
   * Items: One standard, in full or in part.
   */
  standards?: {
    /**
     * Id of the standard's record.
     */
    standard: string;
    /**
     * Whether all of it was applied for this clause.
     */
    extent?: 'full' | 'part';
    /**
     * Which clauses, where not all.
     */
    clauses?: string;
  }[];
  /**
   * Records that show it: each by its id, or with the place in it.
   *
   * Items: Id of a record, or the record with the place in it where the evidence stands.
   */
  evidence?: (
    | string
    | {
        /**
         * Id of the record.
         */
        record: string;
        /**
         * Where in the record, or in the document that holds it.
         */
        location?: string;
      }
  )[];
  /**
   * What a reader should know besides, such as how the clause was read.
   */
  note?: string;
  /**
   * Sub-clauses and points of the clause, one row each, in the order of the table. They are approved together.
   *
   * Items: One row.
   */
  clauses?: {
    /**
     * Number of a sub-clause as in the table.
     */
    clause: string;
    /**
     * Whether the clause applies to this device: decided by people. A proposal (proposed yes, proposed no, to decide) stands until a person has confirmed or changed it.
     */
    applicable: true | false | 'proposed yes' | 'proposed no' | 'to decide';
    /**
     * Why it does not apply, or how the clause is read.
     */
    reason?: string;
    /**
     * How the clause is met.
     */
    solution?: string;
    /**
     * How conformity with the clause is shown.
     *
     * Items: A method.
     */
    method?: (
      | 'design'
      | 'test'
      | 'analysis'
      | 'inspection'
      | 'simulated use'
      | 'clinical evaluation'
      | 'risk management'
      | 'information supplied'
      | 'quality system'
      | 'literature'
    )[];
    /**
     * Standards applied to meet the clause.
     *
     * Items: One standard, in full or in part.
     */
    standards?: {
      /**
       * Id of the standard's record.
       */
      standard: string;
      /**
       * Whether all of it was applied for this clause.
       */
      extent?: 'full' | 'part';
      /**
       * Which clauses, where not all.
       */
      clauses?: string;
    }[];
    /**
     * Records that show it: each by its id, or with the place in it.
     *
     * Items: Id of a record, or the record with the place in it where the evidence stands.
     */
    evidence?: (
      | string
      | {
          /**
           * Id of the record.
           */
          record: string;
          /**
           * Where in the record, or in the document that holds it.
           */
          location?: string;
        }
    )[];
    /**
     * What a reader should know besides, such as how the clause was read.
     */
    note?: string;
  }[];
}

/**
 * A material of a part, its contact with the body and the evidence for it.
 */
export interface MaterialFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'material';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Parts made of it.
   *
   * Items: Id of a record of type design-output.
   */
  part: string[];
  /**
   * Kind of contact with the body.
   */
  contact: string;
  /**
   * Contact time class.
   */
  duration?: string;
  /**
   * Grade designation of the specification.
   */
  supplier_grade?: string;
  /**
   * Records that show that it is acceptable.
   *
   * Items: Id of a record of type *.
   */
  evidence?: string[];
}

/**
 * What holds for the whole technical file: the device, wordings that are written once, risk and sampling policy, approval roles.
 */
export interface PlinthFields {
  /**
   * Identity of the device.
   */
  device: {
    /**
     * Name of the device.
     */
    name: string;
    /**
     * Product code.
     */
    code?: string;
    /**
     * The legal manufacturer.
     */
    maker: string;
    /**
     * Key of the device model in databases, certificates and the declaration of conformity: a global model number with its two check characters.
     */
    basic_udi_di?: string;
    /**
     * GTIN-14 of each packaging level.
     *
     * Items: One level.
     */
    identifiers?: {
      /**
       * Packaging level.
       */
      level: string;
      /**
       * 14 digits with check digit.
       */
      gtin: string;
    }[];
    /**
     * Sizes, configurations or versions that the file covers, where there are several. Protocols then say which of them were tested and why these stand for the others.
     *
     * Items: One variant.
     */
    variants?: {
      /**
       * Code by which protocols name it.
       */
      code: string;
      /**
       * What sets it apart.
       */
      name: string;
    }[];
  };
  /**
   * Wordings that must be the same everywhere, each with a key.
   */
  phrases?: {
    /**
     * The one wording.
     */
    [k: string]: string;
  };
  /**
   * Countries in which the device is to be sold, with the languages that label and instructions must have there. National law decides; a person looks it up.
   *
   * Items: One country.
   */
  markets?: {
    /**
     * Name or code of the country.
     */
    market: string;
    /**
     * Languages that are needed there (BCP 47). Label and instructions need each of them.
     *
     * Items: One language.
     */
    languages: string[];
    /**
     * Where this was looked up, by whom and when.
     */
    source?: string;
  }[];
  /**
   * Terms of this file with their meaning, defined once; the view `terms` prints those that a document uses.
   *
   * Items: One term.
   */
  terms?: {
    /**
     * The word or words.
     */
    term: string;
    /**
     * What it means in this file, in your own words.
     */
    meaning: string;
    /**
     * Standard or law from which the meaning is taken, where there is one.
     */
    source?: string;
  }[];
  /**
   * Language of the documents (BCP 47).
   */
  language?: string;
  /**
   * Word file (.docx or .dotx) within the technical file whose styles, theme, paper, running heads and logo the Word documents take over. Its path is seen from plinth.yaml.
   */
  house_style?: string;
  /**
   * Day for which the file is checked, where --as-of is not given. Without it: today.
   */
  as_of?: string;
  /**
   * Dated tables of legal clauses in use.
   *
   * Items: One table.
   */
  clause_tables?: {
    /**
     * Key of a table that the tool ships.
     */
    table: string;
    /**
     * Edition of the table that the file works to.
     */
    edition: string;
  }[];
  /**
   * What the draft of the EU declaration of conformity needs and no record holds (Annex IV of Regulation (EU) 2017/745). Name, intended purpose, Basic UDI-DI and class are drawn from where they stand. Nothing here signs anything.
   */
  declaration?: {
    /**
     * Registered place of business of the maker.
     */
    address?: string;
    /**
     * Single registration number of the maker, once it has been given.
     */
    srn?: string;
    /**
     * Where the maker has its place of business outside of the Union.
     */
    authorised_representative?: {
      /**
       * Name.
       */
      name: string;
      /**
       * Address.
       */
      address: string;
      /**
       * Its single registration number.
       */
      srn?: string;
    };
    /**
     * Other law of the Union that asks for a declaration, if any.
     *
     * Items: One act.
     */
    other_law?: string[];
    /**
     * Common specifications to which conformity is declared.
     *
     * Items: One specification.
     */
    common_specifications?: string[];
    /**
     * The notified body, the procedure it carried out and its certificate.
     */
    notified_body?: {
      /**
       * Name.
       */
      name: string;
      /**
       * Its identification number.
       */
      number?: string;
      /**
       * Conformity assessment that it carried out.
       */
      procedure: string;
      /**
       * The certificate, once it has been issued.
       */
      certificate?: string;
    };
    /**
     * Further information, where there is any.
     */
    additional?: string;
    /**
     * What does not apply or is not there yet, with the reason.
     *
     * Items: One part.
     */
    left_out?: {
      /**
       * The part.
       */
      what:
        | 'address'
        | 'srn'
        | 'authorised_representative'
        | 'basic_udi_di'
        | 'risk_class'
        | 'other_law'
        | 'common_specifications'
        | 'notified_body'
        | 'notified_body_number'
        | 'additional';
      /**
       * Why it is left out.
       */
      reason: string;
    }[];
  };
  /**
   * Scales and acceptability (ISO 14971:2019 4.4), where the file has no record of type risk-plan. With such a record they stand there, and only there.
   */
  risk?: {
    /**
     * Classes from the least to the most severe.
     *
     * Items: One class.
     */
    severities: {
      /**
       * Short name.
       */
      class: string;
      /**
       * Meaning.
       */
      name: string;
    }[];
    /**
     * Bands of the probability of harm, half-open, together from 0 to 1.
     */
    probability: {
      /**
       * Per what.
       */
      denominator: string;
      /**
       * From the lowest to the highest; each reaches from the end of the one before up to, not including, its own end. The last has no end.
       *
       * Items: One band.
       */
      bands: {
        /**
         * Short name.
         */
        band: string;
        /**
         * Meaning.
         */
        name?: string;
        /**
         * End of the band, not included. Left out in the last band.
         */
        below?: number;
      }[];
    };
    /**
     * For each severity class the highest band in which the residual risk is acceptable.
     */
    acceptable: {
      /**
       * Name of a band.
       */
      [k: string]: string;
    };
    /**
     * What holds where the probability of harm cannot be estimated and severity alone decides.
     */
    not_estimable?: {
      /**
       * The gravest severity class of which such a risk may stand.
       */
      acceptable_up_to: string;
      /**
       * Why, and what has to be done first.
       */
      statement: string;
    };
  };
  /**
   * Confidence and reliability that protocols must reach, by the highest severity of the risks that their design inputs help to control. The first entry also holds where no risk is linked. Where the file has a record of type risk-plan, it can stand there, and then only there.
   *
   * Items: One severity class.
   */
  sampling_policy?: {
    /**
     * Severity class.
     */
    severity: string;
    /**
     * Between 0 and 1.
     */
    confidence: number;
    /**
     * Between 0 and 1.
     */
    reliability: number;
  }[];
  /**
   * Roles that must approve a record of each type before it counts as approved. Key * holds for types without an entry.
   */
  approval_roles?: {
    /**
     * Roles.
     *
     * Items: A role.
     */
    [k: string]: string[];
  };
  /**
   * Roles that different persons must hold on one record.
   *
   * Items: One rule.
   */
  independence?: {
    /**
     * Record types that the rule holds for; * means every type.
     *
     * Items: A record type, or *.
     */
    types: string[];
    /**
     * Two roles or more, each of which another person must hold.
     *
     * Items: A role.
     */
    roles: string[];
  }[];
  /**
   * Signed mode: every approval must come into the file by a commit whose signature git verifies. Whether that is an electronic signature in the sense of the law depends on your procedures.
   */
  signatures?: {
    /**
     * Approvals of this day and later must be signed; earlier ones were given on paper or otherwise.
     */
    since: string;
    /**
     * Who may sign, under which name in the allowed-signers file, in which roles. The file itself is no part of the technical file, or a change could add its own key: see --signers.
     *
     * Items: One person.
     */
    people: {
      /**
       * Name as in approvals.
       */
      name: string;
      /**
       * Principal in the allowed-signers file.
       */
      signer: string;
      /**
       * Roles in which the person may approve.
       *
       * Items: A role.
       */
      roles: string[];
    }[];
  };
  /**
   * Links that records must have beyond what the checks ask, as data: by type and status, with the clause that asks for it.
   *
   * Items: One rule: records of a type must have links of a kind.
   */
  trace_rules?: {
    /**
     * Short name, for the finding.
     */
    name: string;
    /**
     * Record type that the rule holds for.
     */
    type: string;
    /**
     * Statuses that the rule holds for; without it all but retired.
     *
     * Items: A status.
     */
    status?: ('draft' | 'in review' | 'approved')[];
    /**
     * Fields that must have these values for the rule to hold.
     */
    where?: {
      /**
       * The value.
       */
      [k: string]: string | number | boolean;
    };
    /**
     * Field of the link.
     */
    link: string;
    /**
     * out: the record names others. in: others name the record.
     */
    direction: 'in' | 'out';
    /**
     * Record types at the other end that count; without it all.
     *
     * Items: A record type.
     */
    types?: string[];
    /**
     * Statuses at the other end that count; without it all but retired.
     *
     * Items: A status.
     */
    counted?: ('draft' | 'in review' | 'approved')[];
    /**
     * How many there must be. Default 1.
     */
    minimum?: number;
    /**
     * Level of the finding. Default error.
     */
    level?: 'error' | 'warning' | 'note';
    /**
     * Clause that asks for it, or the procedure of the maker.
     */
    clause?: string;
    /**
     * Why the rule is there.
     */
    reason?: string;
  }[];
  /**
   * Findings that weigh more in this file than by themselves. A level is only ever raised; to accept a finding, use a waiver.
   *
   * Items: One code whose findings weigh more.
   */
  tighten?: {
    /**
     * Code of the finding.
     */
    code: string;
    /**
     * Level that the findings get, if theirs is lower.
     */
    level: 'error' | 'warning';
    /**
     * Record types that this holds for; without it all.
     *
     * Items: A record type.
     */
    types?: string[];
    /**
     * Statuses of the record that this holds for; without it all.
     *
     * Items: A status.
     */
    statuses?: ('draft' | 'in review' | 'approved' | 'retired')[];
    /**
     * Clause or procedure that asks for it.
     */
    clause?: string;
  }[];
  /**
   * Criteria of usability engineering.
   */
  usability?: {
    /**
     * Lowest severity class of `risk.severities` from which a use error makes a task critical. Default: the third class.
     */
    critical_from?: string;
  };
  /**
   * Words beyond the built-in list that a design input must not rest on.
   *
   * Items: A word or phrase.
   */
  vague_words?: string[];
  /**
   * Files or folders of the technical file that are not records.
   *
   * Items: Path from the root, with / as separator.
   */
  ignore?: string[];
  /**
   * Findings that people have accepted, with reason and end. Printed in every report.
   *
   * Items: One accepted finding.
   */
  waivers?: {
    /**
     * Code of the finding.
     */
    code: string;
    /**
     * Id of the record.
     */
    record: string;
    /**
     * Why it is accepted.
     */
    reason: string;
    /**
     * Role that accepted it.
     */
    role: string;
    /**
     * Day of the decision.
     */
    date: string;
    /**
     * Last day on which it holds.
     */
    expires: string;
  }[];
}

/**
 * Fields that every record has. The schema of a record type adds its own.
 */
export interface RecordFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  /**
   * Record type: the name of a schema.
   */
  type: string;
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  [k: string]: unknown;
}

/**
 * A measure that lowers a risk, with the evidence that it is in place and that it works (ISO 14971:2019 7).
 */
export interface RiskControlFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'risk-control';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The risks that it lowers.
   *
   * Items: Id of a record of type risk.
   */
  controls: string[];
  /**
   * Kind of measure, in the order of priority of ISO 14971:2019 7.1.
   */
  option: 'inherently safe design' | 'protective measure' | 'information for safety';
  /**
   * Why no measure of higher priority was taken.
   */
  option_reason?: string;
  /**
   * Design outputs and inputs in which the measure is put into effect.
   *
   * Items: Id of a record of type design-output, design-input.
   */
  implemented_by?: string[];
  /**
   * How the named evidence shows the effect, where its links do not tell.
   */
  shown_by_reason?: string;
  /**
   * That the measure was put into effect, apart from whether it works: what was looked at, and where.
   */
  in_place?: {
    /**
     * What was seen.
     */
    statement: string;
    /**
     * Where it was seen: drawing, artwork, process specification, review, inspection.
     *
     * Items: Id of a record of type design-output, design-review, verification-record, validation-record, analysis, document, material.
     */
    seen_in: string[];
  };
  /**
   * Protocols and analyses that show that the measure works.
   *
   * Items: Id of a record of type verification-protocol, validation-protocol, analysis.
   */
  shown_by?: string[];
  /**
   * Answer to the question whether the measure brings risks of its own.
   */
  new_risks?: {
    /**
     * What was found.
     */
    answer: string;
    /**
     * Risks that cover what was found.
     *
     * Items: Id of a record of type risk.
     */
    risks?: string[];
  };
}

/**
 * Scope, criteria and activities of risk management, approved before the analysis begins (ISO 14971:2019 4.4). Its criteria are those in force.
 */
export interface RiskPlanFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'risk-plan';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Day from which the plan holds.
   */
  date?: string;
  /**
   * Device and phases of its life that the plan covers.
   */
  scope: string;
  /**
   * Scales of severity and probability, and what is acceptable.
   */
  criteria: {
    /**
     * Classes from the least to the most severe.
     *
     * Items: One class.
     */
    severities: {
      /**
       * Short name.
       */
      class: string;
      /**
       * Meaning.
       */
      name: string;
    }[];
    /**
     * Bands of the probability of harm, half-open, together from 0 to 1.
     */
    probability: {
      /**
       * Per what.
       */
      denominator: string;
      /**
       * From the lowest to the highest; each reaches from the end of the one before up to, not including, its own end. The last has no end.
       *
       * Items: One band.
       */
      bands: {
        /**
         * Short name.
         */
        band: string;
        /**
         * Meaning.
         */
        name?: string;
        /**
         * End of the band, not included. Left out in the last band.
         */
        below?: number;
      }[];
    };
    /**
     * For each severity class the highest band in which the residual risk is acceptable.
     */
    acceptable: {
      /**
       * Name of a band.
       */
      [k: string]: string;
    };
    /**
     * What holds where the probability of harm cannot be estimated and severity alone decides.
     */
    not_estimable?: {
      /**
       * The gravest severity class of which such a risk may stand.
       */
      acceptable_up_to: string;
      /**
       * Why, and what has to be done first.
       */
      statement: string;
    };
  };
  /**
   * Confidence and reliability that protocols must reach, by the highest severity of the risks that their design inputs help to control. The first entry also holds where no risk is linked.
   *
   * Items: One severity class.
   */
  sampling_policy?: {
    /**
     * Severity class.
     */
    severity: string;
    /**
     * Between 0 and 1.
     */
    confidence: number;
    /**
     * Between 0 and 1.
     */
    reliability: number;
  }[];
  /**
   * How the residual risks are judged together, and who decides.
   */
  overall_residual_risk?: {
    /**
     * How they are judged, and by which criteria.
     */
    method: string;
    /**
     * Roles that decide.
     *
     * Items: A role.
     */
    decided_by: string[];
  };
  /**
   * Words for hazards and harms. With it, risks of one kind bear one name and can be counted together.
   */
  vocabulary?: {
    /**
     * Potential sources of harm.
     *
     * Items: One hazard.
     */
    hazards?: {
      /**
       * The hazard in the words that risks use.
       */
      term: string;
      /**
       * What is meant by it.
       */
      description?: string;
    }[];
    /**
     * Injuries and damage to health.
     *
     * Items: One harm.
     */
    harms?: {
      /**
       * The harm in the words that risks use.
       */
      term: string;
      /**
       * What is meant by it.
       */
      description?: string;
      /**
       * Severity class of this harm, unless a risk says why it differs.
       */
      severity?: string;
    }[];
  };
  /**
   * How it is seen that controls are in place, and shown that they work.
   */
  verification_of_controls?: string;
  /**
   * What is collected and reviewed in production and afterwards.
   */
  information_after_release?: string;
}

/**
 * The judgement of people before release: the plan was carried out, the overall residual risk is acceptable, and ways of getting information are in place (ISO 14971:2019 8 and 9).
 */
export interface RiskReviewFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'risk-review';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Day of the review.
   */
  date: string;
  /**
   * The risk management plan that was to be carried out.
   *
   * Items: Id of a record of type risk-plan.
   */
  reviews: string[];
  /**
   * What of the plan was done, and what was not.
   */
  plan_carried_out: string;
  /**
   * The judgement of all residual risks together.
   */
  overall_residual_risk: {
    /**
     * What was looked at.
     */
    considered: {
      /**
       * What was compared with what.
       */
      statement: string;
      /**
       * Risks, decisions and evidence that were read.
       *
       * Items: Id of a record of type *.
       */
      records?: string[];
    };
    /**
     * What was decided.
     */
    decision: 'acceptable' | 'not acceptable';
    /**
     * Why.
     */
    reason: string;
  };
  /**
   * Ways of collecting and reviewing information in production and afterwards, and that they are in place.
   */
  information_in_place: string;
  /**
   * Roles of those who took part.
   *
   * Items: A role.
   */
  participants: string[];
}

/**
 * One way from a hazard to a harm, estimated before and after risk control (ISO 14971:2019 5 to 7).
 */
export interface RiskFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'risk';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Potential source of harm.
   */
  hazard: string;
  /**
   * How the hazardous situation comes about.
   */
  sequence: string;
  /**
   * People exposed to the hazard.
   */
  hazardous_situation: string;
  /**
   * Injury or damage to health.
   */
  harm: string;
  /**
   * Severity class of the criteria.
   */
  severity: string;
  /**
   * Probabilities in the denominator of the criteria: p1 that the hazardous situation occurs, p2 that it then leads to the harm. Or, in their place, why they cannot be estimated.
   */
  before: {
    /**
     * Probability of the hazardous situation.
     */
    p1?: number;
    /**
     * Probability that the situation leads to the harm.
     */
    p2?: number;
    /**
     * Why the probability of harm cannot be estimated. The criteria then decide by severity alone.
     */
    not_estimable?: string;
  };
  /**
   * Probabilities in the denominator of the criteria: p1 that the hazardous situation occurs, p2 that it then leads to the harm. Or, in their place, why they cannot be estimated, and the severity where control has lowered it.
   */
  after: {
    /**
     * Probability of the hazardous situation.
     */
    p1?: number;
    /**
     * Probability that the situation leads to the harm.
     */
    p2?: number;
    /**
     * Why the probability of harm cannot be estimated. The criteria then decide by severity alone.
     */
    not_estimable?: string;
    /**
     * Severity class after control, where control has changed it.
     */
    severity?: string;
    /**
     * Which measure makes the harm less grave, and how that was shown.
     */
    severity_reason?: string;
  };
  /**
   * Where the numbers come from, and how sure they are.
   */
  basis?: string;
  /**
   * Why the same harm has another severity here than elsewhere in the file.
   */
  severity_reason?: string;
  /**
   * Why users need not be told of a residual risk that is outside the criteria.
   */
  undisclosed_reason?: string;
  /**
   * The residual risk must be told to the user in the instructions for use.
   */
  disclosed?: boolean;
  /**
   * Why the risk can't be reduced further, whatever its class.
   */
  alarp?: string;
}

/**
 * A published standard in the edition that the file works to.
 */
export interface StandardFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'standard';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Number of the standard, without the year.
   */
  designation: string;
  /**
   * Year of the edition.
   */
  edition: string;
  /**
   * Clauses applied, where not all.
   */
  clauses?: string;
  /**
   * Whether applied in full.
   */
  extent?: 'full' | 'part';
  /**
   * Harmonised, recognised or neither, as looked up by a person.
   */
  recognition?: string;
  /**
   * Day on which a person looked up the recognition.
   */
  recognition_checked?: string;
  /**
   * The edition that has replaced this one, once a person has learnt of it.
   */
  superseded_by?: {
    /**
     * Year of the new edition.
     */
    edition: string;
    /**
     * Day on which the new edition was published, or on which the maker learnt of it.
     */
    published: string;
    /**
     * Day until which the older edition may still be used, where an authority or a recognition sets one.
     */
    transition_until?: string;
    /**
     * Where this was learnt.
     */
    source?: string;
  };
  /**
   * What the new edition means for this device: made by people who have both texts.
   */
  gap_analysis?: {
    /**
     * Day of the analysis.
     */
    date: string;
    /**
     * Role of who made it.
     */
    role: string;
    /**
     * What differs in the clauses applied, in your own words.
     */
    differences: string;
    /**
     * Records whose work followed the older edition.
     *
     * Items: Id of a record of any type.
     */
    affected?: string[];
    /**
     * What follows for this file: decided by people.
     */
    conclusion: 'no effect' | 'work needed' | 'new edition adopted';
    /**
     * What is to be done, where work is needed.
     *
     * Items: One action.
     */
    actions?: {
      /**
       * What is to be done.
       */
      action: string;
      /**
       * Day by which.
       */
      due: string;
      /**
       * Day on which it was done.
       */
      done?: string;
    }[];
  };
}

/**
 * What is handed in to whom, in the order of a table of contents: for each row the documents, records and files that answer it, or the reason why none does.
 */
export interface SubmissionFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'submission';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * To whom it is handed in.
   */
  body: string;
  /**
   * What is applied for.
   */
  purpose?: string;
  /**
   * Reference of the body, where it has given one.
   */
  reference?: string;
  /**
   * Day on which it is planned to be handed in.
   */
  planned?: string;
  /**
   * Day on which it was handed in.
   */
  handed_in?: string;
  /**
   * SHA-256 of manifest.json of the folder that was handed in, as plinth assemble tells it: it stands for every file of the folder.
   */
  manifest_sha256?: string;
  /**
   * Forms of each document that are laid into the folder. Default: Word.
   *
   * Items: A file format.
   */
  formats?: ('docx' | 'pdf' | 'html')[];
  /**
   * The tables of contents in their order, for example Annex II and Annex III.
   *
   * Items: One table.
   */
  tables: {
    /**
     * Key of a clause table of the tool or of the technical file.
     */
    table: string;
    /**
     * What answers its rows.
     *
     * Items: What answers one row, or why nothing does.
     */
    rows: {
      /**
       * Number of the row in the table. A reason holds for all rows below it that have no entry of their own; content for those directly below it, where none of them has content of its own.
       */
      clause: string;
      /**
       * What answers the row.
       *
       * Items: One document, record, file or set of raw data that answers the row.
       */
      content?: {
        /**
         * Id of a document; its deliverables are copied into the folder.
         */
        document?: string;
        /**
         * With a document that is written for each record of a type: only the copies for these records. Default: all.
         *
         * Items: Id of a record.
         */
        for?: string[];
        /**
         * Id of a record that answers the row; the index leads to the document of the folder that shows it.
         */
        record?: string;
        /**
         * Path of a file of the technical file, as seen from plinth.yaml; it is copied.
         */
        file?: string;
        /**
         * Record type: the raw data of all its records that are not retired are copied.
         */
        raw_data?: string;
        /**
         * Section, table or page that answers the row.
         */
        where?: string;
      }[];
      /**
       * Why nothing answers the row.
       */
      empty?: string;
    }[];
  }[];
}

/**
 * How information from production and the market comes back to the risks, and from what point on they are looked at again (Regulation (EU) 2017/745 Article 84 and Annex III 1; ISO 14971:2019 10, from memory).
 */
export interface SurveillancePlanFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'surveillance-plan';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Day from which the plan holds.
   */
  date: string;
  /**
   * Confidence of each bound on a rate, between 0.5 and 1.
   */
  confidence: number;
  /**
   * Where information comes from, how often it is looked at, and which risks it informs.
   *
   * Items: One source.
   */
  sources: {
    /**
     * What it is.
     */
    source: string;
    /**
     * Months between two looks. Left out for what comes with each lot.
     */
    interval_months?: number;
    /**
     * Risks whose probability it tells of.
     *
     * Items: Id of a record of type risk.
     */
    informs: string[];
  }[];
  /**
   * From what point on a risk is looked at again at once. Beside them, the band that is claimed for the probability of harm always counts.
   *
   * Items: One threshold: a number of events in a period, or a rate per use.
   */
  thresholds?: ({
    [k: string]: unknown;
  } & {
    /**
     * Id of a record of type risk.
     */
    risk: string;
    /**
     * What is counted: that the hazardous situation occurred, or that it led to the harm.
     */
    counts: 'situation' | 'harm';
    /**
     * Number of events in one period from which the risk is looked at again.
     */
    events?: number;
    /**
     * Events per use in one period above which the risk is looked at again.
     */
    rate?: number;
  })[];
}

/**
 * How a characteristic is measured, and the study that shows the measuring is good enough (ISO 13485:2016 7.6).
 */
export interface TestMethodFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'test-method';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * What is measured.
   */
  characteristic: string;
  /**
   * Unit as a UCUM code; common forms such as °C and µm are understood.
   */
  unit?: string;
  /**
   * Smallest step of the reading, in the unit.
   */
  resolution?: number;
  /**
   * Equipment that the method needs.
   *
   * Items: Id of a record of type equipment.
   */
  equipment?: string[];
  /**
   * Published methods that this one follows.
   *
   * Items: Id of a record of type standard.
   */
  standard?: string[];
  /**
   * Study of the measurement: its raw data and what was accepted.
   */
  study?: {
    /**
     * Evidence method that evaluates the study: crossed-gauge-study, average-and-range-gauge-study, nested-gauge-study (tests that use up the unit), bias-and-linearity-study or attribute-agreement. "plinth explain NAME" tells the columns that each needs.
     */
    kind: string;
    /**
     * Path of the raw-data file, from the folder of this record.
     */
    file: string;
    /**
     * Digest of the file's bytes, 64 hexadecimal digits. A changed raw-data file is a finding.
     */
    sha256: string;
    /**
     * Width of the tolerance, in the unit, that the spread is compared with. For a single limit: twice the distance from the mean to it.
     */
    tolerance?: number;
    /**
     * Largest accepted share of the tolerance in percent (gauge study) or smallest accepted effectiveness in percent (attribute agreement).
     */
    accept_percent?: number;
    /**
     * Largest accepted bias in either direction, in the unit. Needed by bias-and-linearity-study.
     */
    accept_bias?: number;
    /**
     * Confidence of the limits around the results, as a share. Default: 0.95.
     */
    confidence?: number;
    /**
     * Whether a gauge or agreement study is judged by the estimate, as is common, or by its confidence bound, which few studies are large enough for. Default: estimate. A bias is always judged by its bound.
     */
    decide_on?: 'estimate' | 'confidence bound';
    /**
     * What the study report says.
     */
    result?: 'pass' | 'fail';
  };
}

/**
 * A task in which a use error can lead to harm, and how it is evaluated with users (IEC 62366-1:2015 with Amendment 1:2020, 5.4 and 5.5, from memory). It is critical where the highest severity of its risks reaches the class of plinth.yaml, or where a person says so.
 */
export interface UseScenarioFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'use-scenario';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Name of the task, as the protocols of the studies name it.
   */
  task: string;
  /**
   * Groups that do the task, by their short names in the use specification.
   *
   * Items: Short name of a group.
   */
  user_groups: string[];
  /**
   * What the user does, in order.
   *
   * Items: One step.
   */
  steps: string[];
  /**
   * What a user may foreseeably do or leave undone.
   *
   * Items: One use error.
   */
  use_errors: string[];
  /**
   * Risks whose sequence of events a use error starts or goes on with.
   *
   * Items: Id of a record of type risk.
   */
  risks: string[];
  /**
   * Whether the scenario is among those that the summative evaluation covers.
   */
  selected: boolean;
  /**
   * Why it was selected or left out. One that is left out needs it.
   */
  selection_reason?: string;
  /**
   * Why the task is critical though no risk of it reaches the class of plinth.yaml; said by a person.
   */
  critical_reason?: string;
  /**
   * Protocols of the studies in which users do the task.
   *
   * Items: Id of a record of type validation-protocol.
   */
  evaluated_by?: string[];
}

/**
 * Who uses the device, on whom, where and how: what all work on usability starts from (IEC 62366-1:2015 with Amendment 1:2020, 5.1, from memory). One technical file holds one.
 */
export interface UseSpecificationFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'use-specification';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Condition or purpose that the device is used for.
   */
  indication: string;
  /**
   * Intended patients: age, condition, what they can do.
   */
  patients: string;
  /**
   * Part of the body or type of tissue that the device is applied to.
   */
  part_of_body: string;
  /**
   * Groups of intended users with what marks each of them.
   *
   * Items: One group.
   */
  user_groups: {
    /**
     * Short name, as protocols, scenarios and the data use it.
     */
    group: string;
    /**
     * Who they are.
     */
    name: string;
    /**
     * What bears on use: training, experience, bodily and mental abilities, language.
     *
     * Items: One characteristic.
     */
    characteristics: string[];
    /**
     * What the group does with the device.
     */
    tasks?: string;
  }[];
  /**
   * Where the device is used, and what there bears on use.
   */
  environment: string;
  /**
   * How the device works, seen from its user.
   */
  operating_principle: string;
}

/**
 * What a user must be able to do or must be spared, in the user's words (ISO 13485:2016 7.3.3).
 */
export interface UserNeedFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'user-need';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * User groups, patients or others who have the need.
   *
   * Items: A user group.
   */
  needed_by: string[];
  /**
   * Where and under which circumstances the need arises.
   */
  use_environment?: string;
}

/**
 * How it is to be shown with intended users that user needs are met (ISO 13485:2016 7.3.7, IEC 62366-1).
 */
export interface ValidationProtocolFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'validation-protocol';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * Kind of study. Formative: while the design may still change. Summative: with the final design, to show that it can be used safely; a protocol that says nothing counts as summative. Simulated use: needs are validated in simulated use, outside the summative evaluation.
   */
  study?: 'formative' | 'summative' | 'simulated use';
  /**
   * User needs.
   *
   * Items: Id of a record of type user-need.
   */
  validates: string[];
  /**
   * Design inputs that only use can show.
   *
   * Items: Id of a record of type design-input.
   */
  verifies?: string[];
  /**
   * Design outputs that the used units are made to.
   *
   * Items: Id of a record of type design-output.
   */
  tests?: string[];
  /**
   * Groups with the number of participants planned in each.
   *
   * Items: One group.
   */
  user_groups: {
    /**
     * Short name used in the data.
     */
    group: string;
    /**
     * Who they are.
     */
    name?: string;
    /**
     * Number planned.
     */
    participants: number;
  }[];
  /**
   * What the participants do.
   *
   * Items: One task.
   */
  tasks: {
    /**
     * Name; also the column in the data.
     */
    task: string;
    /**
     * What counts as done.
     */
    description?: string;
    /**
     * A use error could cause harm that needs intervention.
     */
    critical: boolean;
  }[];
  /**
   * Where the study takes place, and what is simulated.
   */
  environment: string;
  /**
   * What the data must show, one entry for each characteristic.
   *
   * Items: Acceptance of one characteristic.
   */
  acceptance: {
    /**
     * Characteristic of the design input.
     */
    characteristic: string;
    /**
     * Unit as a UCUM code; common forms such as °C and µm are understood.
     */
    unit?: string;
    /**
     * Smallest value allowed.
     */
    lower?: number;
    /**
     * Largest value allowed.
     */
    upper?: number;
    /**
     * For what is inspected rather than measured: what must be true.
     */
    criterion?: string;
    /**
     * How several readings of one unit become the one value that counts for it.
     */
    per_unit?: 'maximum' | 'minimum' | 'mean';
  }[];
  /**
   * How many units, which statistical method, and why.
   */
  sampling: {
    /**
     * Evidence method: normal-tolerance-interval, lognormal-tolerance-bound, transformed-normal-tolerance-interval, weibull-lower-bound, nonparametric-tolerance-interval, mean, equivalence, capability, attribute, success-run, inspection-checklist, laboratory-maximum or all-units.
     */
    kind: string;
    /**
     * Confidence of the statement, between 0 and 1.
     */
    confidence?: number;
    /**
     * Share of units that must conform, between 0 and 1.
     */
    reliability?: number;
    /**
     * Number of units (or readings, items, participants) planned.
     */
    size?: number;
    /**
     * Largest number of failing units with which the sample still passes. Fixed before the data.
     */
    accept?: number;
    /**
     * For transformed-normal-tolerance-interval: Box-Cox power, fixed before the data from earlier ones: 0 the logarithm, 0.5 the square root, 1 none. Without it the widest interval over the powers that the data leave open is taken.
     */
    power?: number;
    /**
     * For capability: smallest Ppk that the lower confidence bound must reach.
     */
    capability_index?: number;
    /**
     * For equivalence: the two groups whose means are compared. The acceptance limits what the second may differ from the first.
     */
    compare?: {
      /**
       * Group to compare with, as the group column of the raw data names it.
       */
      from: string;
      /**
       * Group that may have shifted, as the group column of the raw data names it.
       */
      to: string;
      /**
       * Whether each unit is measured in both groups. Default: no, the groups are different units.
       */
      paired?: boolean;
    };
    /**
     * Number of lots that the sample is drawn from.
     */
    lots?: number;
    /**
     * Why this method and this size.
     */
    rationale: string;
    /**
     * Reason for planning less than the sampling policy asks, approved with the protocol.
     */
    exception?: string;
  };
  /**
   * Codes of the variants of plinth.yaml that are tested.
   *
   * Items: Code of a variant.
   */
  variants?: string[];
  /**
   * Why the variants tested stand for those that are not: what makes them the worst case.
   */
  variants_reason?: string;
}

/**
 * What happened when intended users used the device (ISO 13485:2016 7.3.7).
 */
export interface ValidationRecordFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'validation-record';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The protocol that was carried out.
   */
  reports: string;
  /**
   * First and last day of the work.
   */
  executed: {
    /**
     * First day.
     */
    from: string;
    /**
     * Last day.
     */
    to: string;
  };
  /**
   * The raw-data file and what its columns mean.
   */
  data: {
    /**
     * Path of the raw-data file, from the folder of this record.
     */
    file: string;
    /**
     * Digest of the file's bytes, 64 hexadecimal digits. A changed raw-data file is a finding.
     */
    sha256: string;
    /**
     * Column that names the unit (sample, participant, item) of each row.
     */
    unit_id?: string;
    /**
     * Column that names the lot.
     */
    lot?: string;
    /**
     * Column that names the user group of a participant.
     */
    group?: string;
    /**
     * Sign between the whole and the fraction. Default: a point.
     */
    decimal?: '.' | ',';
    /**
     * Which column holds which characteristic.
     *
     * Items: One column.
     */
    columns: {
      /**
       * Characteristic of the protocol's acceptance.
       */
      characteristic: string;
      /**
       * Column heading, without the unit in brackets.
       */
      column: string;
      /**
       * Unit of the column, where the heading does not give it in brackets.
       */
      unit?: string;
    }[];
  };
  /**
   * Design outputs and revisions to which the used units were made.
   *
   * Items: One output and its revision.
   */
  tested?: {
    /**
     * The design output.
     */
    output: string;
    /**
     * Revision.
     */
    revision: string;
  }[];
  /**
   * Lots that the units came from.
   *
   * Items: Lot number.
   */
  lots?: string[];
  /**
   * Units left out of the evaluation, each with a reason and a deviation.
   *
   * Items: One excluded unit.
   */
  exclusions?: {
    /**
     * Value of the unit column.
     */
    unit: string;
    /**
     * Why it was left out.
     */
    reason: string;
    /**
     * The deviation that assesses it.
     */
    deviation?: string;
  }[];
  /**
   * Use errors, close calls and difficulties, each with its root cause and the judgement of residual risk.
   *
   * Items: One observation.
   */
  observations?: {
    /**
     * Value of the unit column.
     */
    participant: string;
    /**
     * Task of the protocol.
     */
    task: string;
    /**
     * What happened.
     */
    kind: 'difficulty' | 'close call' | 'use error';
    /**
     * As found with the participant.
     */
    root_cause: string;
    /**
     * What it means for residual risk, judged by people.
     */
    judgement?: string;
    /**
     * Risk that the observation bears on.
     */
    risk?: string;
  }[];
  /**
   * What the report says. The tool recomputes it from the raw data and reports a difference.
   */
  result: 'pass' | 'fail';
}

/**
 * How design inputs are to be verified, with acceptance and sample size fixed before the data (ISO 13485:2016 7.3.6).
 */
export interface VerificationProtocolFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'verification-protocol';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The design inputs that the protocol is to show.
   *
   * Items: Id of a record of type design-input.
   */
  verifies: string[];
  /**
   * Test methods.
   *
   * Items: Id of a record of type test-method.
   */
  uses?: string[];
  /**
   * Design outputs that the tested units are made to.
   *
   * Items: Id of a record of type design-output.
   */
  tests?: string[];
  /**
   * Kind of verification.
   */
  method: 'test' | 'analysis' | 'inspection' | 'demonstration';
  /**
   * State of the units when tested: fresh, aged, shipped, or aged and shipped.
   */
  condition: string;
  /**
   * Steps that the units go through before the test, in order.
   *
   * Items: One step.
   */
  conditioning?: string[];
  /**
   * What the data must show, one entry for each characteristic.
   *
   * Items: Acceptance of one characteristic.
   */
  acceptance: {
    /**
     * Characteristic of the design input.
     */
    characteristic: string;
    /**
     * Unit as a UCUM code; common forms such as °C and µm are understood.
     */
    unit?: string;
    /**
     * Smallest value allowed.
     */
    lower?: number;
    /**
     * Largest value allowed.
     */
    upper?: number;
    /**
     * For what is inspected rather than measured: what must be true.
     */
    criterion?: string;
    /**
     * How several readings of one unit become the one value that counts for it.
     */
    per_unit?: 'maximum' | 'minimum' | 'mean';
  }[];
  /**
   * How many units, which statistical method, and why.
   */
  sampling: {
    /**
     * Evidence method: normal-tolerance-interval, lognormal-tolerance-bound, transformed-normal-tolerance-interval, weibull-lower-bound, nonparametric-tolerance-interval, mean, equivalence, capability, attribute, success-run, inspection-checklist, laboratory-maximum or all-units.
     */
    kind: string;
    /**
     * Confidence of the statement, between 0 and 1.
     */
    confidence?: number;
    /**
     * Share of units that must conform, between 0 and 1.
     */
    reliability?: number;
    /**
     * Number of units (or readings, items, participants) planned.
     */
    size?: number;
    /**
     * Largest number of failing units with which the sample still passes. Fixed before the data.
     */
    accept?: number;
    /**
     * For transformed-normal-tolerance-interval: Box-Cox power, fixed before the data from earlier ones: 0 the logarithm, 0.5 the square root, 1 none. Without it the widest interval over the powers that the data leave open is taken.
     */
    power?: number;
    /**
     * For capability: smallest Ppk that the lower confidence bound must reach.
     */
    capability_index?: number;
    /**
     * For equivalence: the two groups whose means are compared. The acceptance limits what the second may differ from the first.
     */
    compare?: {
      /**
       * Group to compare with, as the group column of the raw data names it.
       */
      from: string;
      /**
       * Group that may have shifted, as the group column of the raw data names it.
       */
      to: string;
      /**
       * Whether each unit is measured in both groups. Default: no, the groups are different units.
       */
      paired?: boolean;
    };
    /**
     * Number of lots that the sample is drawn from.
     */
    lots?: number;
    /**
     * Why this method and this size.
     */
    rationale: string;
    /**
     * Reason for planning less than the sampling policy asks, approved with the protocol.
     */
    exception?: string;
  };
  /**
   * Codes of the variants of plinth.yaml that are tested.
   *
   * Items: Code of a variant.
   */
  variants?: string[];
  /**
   * Why the variants tested stand for those that are not: what makes them the worst case.
   */
  variants_reason?: string;
}

/**
 * What was done and measured under a protocol (ISO 13485:2016 7.3.6).
 */
export interface VerificationRecordFields {
  /**
   * Unique in the technical file: the prefix of the type, a hyphen and a number. Never given to another record.
   */
  id: string;
  type: 'verification-record';
  /**
   * What the record is about, in a few words.
   */
  title: string;
  /**
   * Where the record stands in its life.
   */
  status: 'draft' | 'in review' | 'approved' | 'retired';
  /**
   * Wordings of plinth.yaml that this record repeats outside its text (on artwork, in a form). They must equal the single source.
   */
  states?: {
    /**
     * The wording as restated.
     */
    [k: string]: string;
  };
  /**
   * Who approved what, when and with which meaning. The digest ties the approval to the content.
   *
   * Items: One approval.
   */
  approvals?: {
    /**
     * Role in which the person approves; plinth.yaml says which roles a type needs.
     */
    role: string;
    /**
     * Printed name of the person.
     */
    name: string;
    /**
     * What the approval means.
     */
    meaning: string;
    /**
     * Day of the approval.
     */
    date: string;
    /**
     * Digest of the record's normative content at the time of approval.
     */
    digest: string;
    /**
     * SHA-256 of the scan of the signed page, where the approval was signed on paper (view signature-page).
     */
    scan_sha256?: string;
    /**
     * Digest of each record that this one relies on, at the time of approval; of a document also those of the wordings that it takes in, as phrases.NAME.
     */
    relies_on?: {
      /**
       * Digest of the linked record's normative content, 64 hexadecimal digits.
       */
      [k: string]: string;
    };
    /**
     * Why the change since the approval before has no technical effect, such as a mended spelling. For approvals that were given again.
     */
    no_technical_effect?: string;
  }[];
  /**
   * The protocol that was carried out.
   */
  reports: string;
  /**
   * First and last day of the work.
   */
  executed: {
    /**
     * First day.
     */
    from: string;
    /**
     * Last day.
     */
    to: string;
  };
  /**
   * The raw-data file and what its columns mean.
   */
  data: {
    /**
     * Path of the raw-data file, from the folder of this record.
     */
    file: string;
    /**
     * Digest of the file's bytes, 64 hexadecimal digits. A changed raw-data file is a finding.
     */
    sha256: string;
    /**
     * Column that names the unit (sample, participant, item) of each row.
     */
    unit_id?: string;
    /**
     * Column that names the lot.
     */
    lot?: string;
    /**
     * Column that names the group of each row: fresh or aged for a comparison, the user group of a participant.
     */
    group?: string;
    /**
     * Sign between the whole and the fraction. Default: a point.
     */
    decimal?: '.' | ',';
    /**
     * Which column holds which characteristic.
     *
     * Items: One column.
     */
    columns: {
      /**
       * Characteristic of the protocol's acceptance.
       */
      characteristic: string;
      /**
       * Column heading, without the unit in brackets.
       */
      column: string;
      /**
       * Unit of the column, where the heading does not give it in brackets.
       */
      unit?: string;
    }[];
  };
  /**
   * Design outputs and revisions to which the tested units were made.
   *
   * Items: One output and its revision.
   */
  tested?: {
    /**
     * The design output.
     */
    output: string;
    /**
     * Revision of the drawing that the units were made to.
     */
    revision: string;
  }[];
  /**
   * Which units of real-time ageing were tested: the analysis or the conditioning plan whose schedule they belong to, and the months of the pull.
   */
  real_time_pull?: {
    /**
     * Id of the analysis with the schedule, or of the conditioning plan where the plan itself holds it.
     */
    schedule: string;
    /**
     * For a conditioning plan: name of the node of real-time ageing.
     */
    node?: string;
    /**
     * Months after the start of storage, as the schedule has them.
     */
    months: number;
  };
  /**
   * Lots that the units came from.
   *
   * Items: Lot number.
   */
  lots?: string[];
  /**
   * Equipment used.
   *
   * Items: Id of a record of type equipment.
   */
  equipment?: string[];
  /**
   * Role of the person who did the work.
   */
  operator?: string;
  /**
   * Units left out of the evaluation, each with a reason and a deviation.
   *
   * Items: One excluded unit.
   */
  exclusions?: {
    /**
     * Value of the unit column.
     */
    unit: string;
    /**
     * Why it was left out.
     */
    reason: string;
    /**
     * The deviation that assesses it.
     */
    deviation?: string;
  }[];
  /**
   * The earlier record of which this one is the repetition.
   */
  retests?: string;
  /**
   * What justified testing again.
   */
  because?: string;
  /**
   * What the report says. The tool recomputes it from the raw data and reports a difference.
   */
  result: 'pass' | 'fail';
}

/** Fields by record type. */
export interface FieldsByType {
  'analysis': AnalysisFields;
  'authority-question': AuthorityQuestionFields;
  'benefit-risk': BenefitRiskFields;
  'biological-evaluation': BiologicalEvaluationFields;
  'claim': ClaimFields;
  'classification': ClassificationFields;
  'conditioning-plan': ConditioningPlanFields;
  'design-change': DesignChangeFields;
  'design-input': DesignInputFields;
  'design-output': DesignOutputFields;
  'design-plan': DesignPlanFields;
  'design-review': DesignReviewFields;
  'deviation': DeviationFields;
  'document': DocumentFields;
  'equipment': EquipmentFields;
  'failure-modes': FailureModesFields;
  'field-data': FieldDataFields;
  'legal-requirement': LegalRequirementFields;
  'material': MaterialFields;
  'risk-control': RiskControlFields;
  'risk-plan': RiskPlanFields;
  'risk-review': RiskReviewFields;
  'risk': RiskFields;
  'standard': StandardFields;
  'submission': SubmissionFields;
  'surveillance-plan': SurveillancePlanFields;
  'test-method': TestMethodFields;
  'use-scenario': UseScenarioFields;
  'use-specification': UseSpecificationFields;
  'user-need': UserNeedFields;
  'validation-protocol': ValidationProtocolFields;
  'validation-record': ValidationRecordFields;
  'verification-protocol': VerificationProtocolFields;
  'verification-record': VerificationRecordFields;
}
