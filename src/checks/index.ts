import type { Check } from './check.ts';
import { needWithoutInput } from './need-without-input.ts';
import { unknownLinkTarget } from './unknown-link-target.ts';

/** All checks, in alphabetical order of their codes. To add one: its file, its test, a line here. */
export const checks: readonly Check[] = [needWithoutInput, unknownLinkTarget];
