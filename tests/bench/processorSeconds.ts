/** Processor time of this process so far, s: unlike the clock on the wall it does not count what else the machine does. */
export function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
