import { nearestName } from '../records/nearest-name.ts';
import type { CommandDefinition, Request } from './command.ts';
import { Refusal } from './refusal.ts';

/** Reads the words after the command. Whatever is not understood is refused, with the nearest known name. */
export const readArguments = (definition: CommandDefinition, words: readonly string[]): Request => {
  const options: Record<string, string> = {};
  const switches = new Set<string>();
  const valued = new Set<string>();
  const given: string[] = [];
  for (const option of definition.options)
    if (option.default !== undefined) options[option.name] = option.default;
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at] as string;
    if (!word.startsWith('-') || word === '-') {
      if (!definition.argument)
        throw new Refusal(
          `plinth ${definition.name} takes no argument, but was given "${word}"`,
          `See "plinth ${definition.name} --help".`,
        );
      if (given.length >= (definition.argument.most ?? 1))
        throw new Refusal(`one argument too many: "${word}"`, `See "plinth ${definition.name} --help".`);
      given.push(word);
      continue;
    }
    const [name = '', attached] = splitOption(word);
    const option = definition.options.find((each) => each.name === name);
    if (!option) {
      const near = nearestName(
        name,
        definition.options.map((each) => each.name),
      );
      throw new Refusal(
        `unknown option "${word}" of plinth ${definition.name}`,
        near ? `Did you mean "--${near}"?` : `See "plinth ${definition.name} --help".`,
      );
    }
    if (option.value === undefined) {
      switches.add(name);
      continue;
    }
    if (attached === undefined) at += 1;
    const value = attached ?? words[at];
    if (value === undefined || value === '')
      throw new Refusal(
        `the option --${name} needs a value: ${option.value}`,
        `For example: ${definition.examples[0] ?? ''}`,
      );
    if (option.choices && !option.choices.includes(value)) {
      const near = nearestName(value, option.choices);
      throw new Refusal(
        `--${name} is "${value}", expected one of: ${option.choices.join(', ')}`,
        near ? `Did you mean "${near}"?` : 'Use one of them.',
      );
    }
    if (valued.has(name))
      throw new Refusal(
        `the option --${name} is given twice`,
        'Give it once: the second would replace the first.',
      );
    valued.add(name);
    options[name] = value;
  }
  if (definition.argument?.required && given.length === 0)
    throw new Refusal(
      `plinth ${definition.name} needs ${definition.argument.name}: ${definition.argument.help}`,
      `For example: ${definition.examples[0] ?? ''}`,
    );
  const date = options['as-of'];
  if (date !== undefined && !isDate(date))
    throw new Refusal(`--as-of is "${date}", expected a date`, 'Write it as 2026-06-01.');
  return {
    command: definition.name,
    ...(given[0] === undefined ? {} : { argument: given[0] }),
    arguments: given,
    options,
    switches,
  };
};

const splitOption = (word: string): readonly [string, string?] => {
  const text = word.replace(/^--?/, '');
  const equals = text.indexOf('=');
  return equals === -1 ? [text] : [text.slice(0, equals), text.slice(equals + 1)];
};

const isDate = (text: string): boolean => {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const parsed = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(parsed.getTime()) && parsed.toISOString().slice(0, 10) === text;
};
