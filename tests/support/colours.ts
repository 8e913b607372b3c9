/**
 * Functions for the pages that are looked at: a computed colour as numbers, and the contrast of two by WCAG 2.2,
 * "relative luminance" and "contrast ratio".
 */
export const colourFunctions = `
  const numbersOf = (colour) => (colour.match(/[\\d.]+/g) ?? []).map(Number);
  const luminance = (colour) => {
    const [r, g, b] = numbersOf(colour).map((part) => {
      const share = part / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (one, other) => {
    const [light, dark] = [luminance(one), luminance(other)].toSorted((a, b) => b - a);
    return (light + 0.05) / (dark + 0.05);
  };
  const paper = getComputedStyle(document.documentElement).backgroundColor;
`;
