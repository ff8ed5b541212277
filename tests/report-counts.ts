import type { Reporter, TestModule } from 'vitest/node';

/** Closes a run with one plain line of counts, for logs that are read by programs. */
export default {
  onTestRunEnd(modules: readonly TestModule[]) {
    const counts = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules)
      for (const test of module.children.allTests()) counts[test.result().state] += 1;
    const broken = modules.filter(
      (module) => module.state() === 'failed' && module.children.size === 0,
    ).length;
    console.log(
      `tests: ${counts.passed} passed, ${counts.failed + broken} failed, ${counts.skipped + counts.pending} skipped`,
    );
  },
} satisfies Reporter;
