/** Milliseconds that this process has used of the processor: what else the machine does at the time does not count. */
export const processorMilliseconds = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
