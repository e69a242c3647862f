// Which processes are there: what a killed one left is removed, what belongs to one that runs is not.

/** Whether a process of that number runs, whoever's it is. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (thrown) {
    return (thrown as NodeJS.ErrnoException).code === "EPERM";
  }
}
