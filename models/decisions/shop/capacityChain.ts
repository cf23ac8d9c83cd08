import type { SiteProblem } from './siteProblem.ts';

/**
 * Room of a site by day, relaxed to a chain of skills: stage m holds the cells of the technicians who can do the types of
 * stages 0..m, never more than the bays hold. Whatever fits the day sheet keeps to it, so a bound over the chain is a
 * bound over the sheet.
 */
export interface CapacityChain {
  readonly stages: number;
  /** stage of each type; -1 = nobody can do it */
  readonly typeStage: Int32Array;
  /** cells left for stages 0..m on day d, at [d·stages + m] */
  readonly cells: Int32Array;
  /** longest visit that any one technician can take, by type and day at [type·days + d]: 1 = it may fit */
  readonly fits: Uint8Array;
}

/** Builds the chain from the sets of technicians that the types ask for, smallest first, each holding the one before. */
export function capacityChain(problem: SiteProblem): CapacityChain {
  const people = problem.technicians.length;
  const dayCount = problem.days.length;
  const technicianFree = Int32Array.from(problem.technicianCells);
  const bayFree = new Int32Array(dayCount * problem.bayCount).fill(problem.openCells);
  for (const hold of problem.held) {
    const length = hold.endCell - hold.firstCell;
    const t = hold.dayIndex * people + hold.technician;
    const b = hold.dayIndex * problem.bayCount + hold.bay;
    if (hold.technician >= 0) technicianFree[t] = Math.max(0, technicianFree[t]! - length);
    if (hold.bay >= 0) bayFree[b] = Math.max(0, bayFree[b]! - length);
  }
  const chain = skillChain(problem);
  const stages = chain.length;
  const typeStage = Int32Array.from(problem.typeTechnicians, (able) =>
    able.length === 0 ? -1 : chain.findIndex((set) => able.every((k) => set.has(k))),
  );
  const cells = new Int32Array(dayCount * stages);
  const fits = new Uint8Array(dayCount * problem.typeCells.length);
  for (let d = 0; d < dayCount; d++) {
    let bays = 0;
    let longestBay = 0;
    for (let b = 0; b < problem.bayCount; b++) {
      const free = bayFree[d * problem.bayCount + b]!;
      bays += free;
      longestBay = Math.max(longestBay, free);
    }
    chain.forEach((set, m) => {
      let sum = 0;
      for (const k of set) sum += technicianFree[d * people + k]!;
      cells[d * stages + m] = Math.min(sum, bays);
    });
    problem.typeTechnicians.forEach((able, type) => {
      const length = problem.typeCells[type]!;
      const someone = able.some((k) => technicianFree[d * people + k]! >= length);
      fits[type * dayCount + d] = someone && longestBay >= length ? 1 : 0;
    });
  }
  return { stages, typeStage, cells, fits };
}

function skillChain(problem: SiteProblem): ReadonlySet<number>[] {
  const sets = new Map<string, ReadonlySet<number>>();
  for (const able of problem.typeTechnicians) if (able.length > 0) sets.set(able.join(), new Set(able));
  const chain: ReadonlySet<number>[] = [];
  for (const set of [...sets.values()].sort((a, b) => a.size - b.size)) {
    const last = chain[chain.length - 1];
    if (last === undefined || [...last].every((k) => set.has(k))) chain.push(set);
  }
  const everyone = new Set(problem.technicians.keys());
  if ((chain[chain.length - 1]?.size ?? -1) < everyone.size) chain.push(everyone);
  return chain;
}
