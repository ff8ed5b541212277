/** Why a run can't go on: not about the content, and not a bug. Exit code 2. */
export class Refusal extends Error {
  readonly hint: string;
  constructor(message: string, hint: string) {
    super(message);
    this.hint = hint;
  }
}
