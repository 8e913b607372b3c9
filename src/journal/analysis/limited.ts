/** Runs tasks so that only some of them are under way at a time; the others wait in the order they came. */
export function limited(most: number): <T>(task: () => Promise<T>) => Promise<T> {
  const waiting: (() => void)[] = [];
  let underWay = 0;
  return async (task) => {
    if (underWay >= most) await new Promise<void>((resolve) => waiting.push(resolve));
    else underWay += 1;
    try {
      return await task();
    } finally {
      const next = waiting.shift();
      if (next) next();
      else underWay -= 1;
    }
  };
}
