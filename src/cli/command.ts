/** An option of a command: declared once, used for parsing and for help. */
export interface OptionDefinition {
  readonly name: string;
  /** What follows the option in help; a switch has none. */
  readonly value?: string;
  /** Allowed values, where there is a fixed set. */
  readonly choices?: readonly string[];
  readonly default?: string;
  readonly help: string;
}

export interface CommandDefinition {
  readonly name: string;
  readonly argument?: {
    readonly name: string;
    readonly help: string;
    readonly required?: boolean;
    /** Most words that may be given; default 1. */
    readonly most?: number;
  };
  readonly summary: string;
  /** Paragraphs for the command's own help. */
  readonly about: readonly string[];
  readonly options: readonly OptionDefinition[];
  readonly examples: readonly string[];
  readonly load: () => Promise<{ readonly run: CommandRun }>;
}

/** What the user asked for, checked against the definition. */
export interface Request {
  readonly command: string;
  /** The first argument. */
  readonly argument?: string;
  readonly arguments: readonly string[];
  readonly options: Readonly<Record<string, string>>;
  readonly switches: ReadonlySet<string>;
}

/** The outside, as a command sees it. */
export interface Terminal {
  readonly out: (text: string) => void;
  /** A line that is written over by the next one; nothing where the output is no terminal. */
  readonly progress: (text: string) => void;
  readonly colour: boolean;
  readonly width: number;
  readonly folder: string;
}

/** Returns the exit code: 0 clean, 1 findings. Refusals are thrown. */
export type CommandRun = (request: Request, terminal: Terminal) => Promise<number>;
