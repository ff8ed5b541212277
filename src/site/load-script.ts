interface ScriptPolicy {
  readonly createScriptURL: (address: string) => string;
}

interface PolicyFactory {
  readonly createPolicy: (name: string, rules: ScriptPolicy) => ScriptPolicy;
}

let policy: ScriptPolicy | undefined;

/** Data files of this copy and nothing else. */
const ownData = /^(?:\.\.\/){0,8}data\/[A-Za-z0-9._-]+\.js$/;

const checked = (address: string): string => {
  if (!ownData.test(address)) throw new Error('not a data file of this copy');
  return address;
};

/** Runs a data file of the copy: from a disk, a script is the only thing that a page may load. */
export const loadScript = (address: string): Promise<void> =>
  new Promise((resolve, reject) => {
    const factory = (globalThis as { readonly trustedTypes?: PolicyFactory }).trustedTypes;
    policy ??= factory
      ? factory.createPolicy('plinth', { createScriptURL: checked })
      : { createScriptURL: checked };
    const script = document.createElement('script');
    script.src = policy.createScriptURL(address);
    script.addEventListener('load', () => resolve());
    script.addEventListener('error', () => reject(new Error(address)));
    document.head.append(script);
  });
