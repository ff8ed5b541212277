/** Types of the records that plan, hold or compute evidence. */
export const evidenceTypes = [
  'verification-protocol',
  'verification-record',
  'validation-protocol',
  'validation-record',
  'analysis',
] as const;
