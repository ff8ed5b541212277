import type { Reporter, TestModule } from 'vitest/node';

/** Closes a run with one plain line of counts, for logs that are read by programs. The runner asks for a class. */
export default class ReportCounts implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules)
      for (const test of module.children.allTests()) counts[test.result().state] += 1;
    // A file that could not be loaded holds no tests, and must not pass as none.
    const broken = modules.filter((module) => module.state() === 'failed' && module.children.size === 0);
    console.log(
      `tests: ${counts.passed} passed, ${counts.failed + broken.length} failed, ${counts.skipped + counts.pending} skipped`,
    );
  }
}
