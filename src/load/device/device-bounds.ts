const mostParallel = 16;

/** True for a number of tubes in parallel. */
export const isCount = (count: number | null | undefined): count is number =>
  count != null && Number.isInteger(count) && count >= 1 && count <= mostParallel;

/** True for a share of the turns. */
export const isTap = (ratio: number | null | undefined): ratio is number =>
  ratio != null && ratio >= 0 && ratio <= 1;
