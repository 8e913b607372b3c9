import type { Browser } from 'playwright-core';
import { serve } from '../support/serve.ts';
import type { Budget } from './budgets.ts';
import { heaviestOf } from './page-kinds.ts';
import { paintTime } from './paint.ts';
import { type Weight, weigh } from './weigh.ts';

/** A budget beside what the heaviest page of its kind takes; both null where the site has no such page. */
export interface Measured extends Budget {
  address: string | null;
  measured: number | null;
  weight: Weight | null;
}

/** Opens the heaviest page of each kind of a built site, and holds it against its budgets. */
export async function measureBudgets(
  browser: Browser,
  folder: string,
  wanted: readonly Budget[],
): Promise<Measured[]> {
  const server = await serve(folder);
  const weights = new Map<string, Weight>();
  const measured: Measured[] = [];
  for (const budget of wanted) {
    const address = heaviestOf(folder, budget.page);
    if (address === null) {
      measured.push({ ...budget, address, measured: null, weight: null });
      continue;
    }
    const weight =
      weights.get(address) ?? (await weigh(browser, { folder, address: server.address }, address));
    weights.set(address, weight);
    const { counted } = budget;
    const figure =
      counted === 'paintMs' ? await paintTime(browser, server.address + address) : weight[counted];
    measured.push({ ...budget, address, measured: figure, weight });
  }
  server.close();
  return measured;
}

/** Whether a budget is kept; a page that is missing keeps none. */
export const isKept = ({ measured, most }: Measured) => measured !== null && measured <= most;

/** One clear line for a budget that is not kept. */
export function faultOf({ page, counted, most, reason, address, measured }: Measured): string {
  if (measured === null)
    return `The site has no page of the kind "${page}", so that its budget cannot be held.`;
  const [is, may] = [printed(counted, measured), printed(counted, most)];
  return `${address} (${page}): ${counted} is ${is}, and ${may} is allowed: ${reason}.`;
}

/** A figure in the unit of what is counted. */
export function printed(counted: Budget['counted'], value: number): string {
  if (counted === 'shift') return value.toFixed(4);
  return counted === 'paintMs' ? `${Math.round(value)} ms` : `${value.toFixed(1)} kB`;
}
