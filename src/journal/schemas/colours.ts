import { z } from 'zod';
import { type Appearance, contrastOnGrounds, leastContrast, legibleShade } from '../publishing/accent.ts';
import { readColour } from '../publishing/contrast.ts';
import { publishMessages as messages } from '../publishing/publish-messages.ts';
import { line } from './fields.ts';

/** An accent of one appearance, refused where text in it could not be read. */
const accent = (appearance: Appearance) =>
  line.superRefine((text, context) => {
    const colour = readColour(text);
    const contrast = colour ? contrastOnGrounds(colour, appearance) : 0;
    if (contrast >= leastContrast) return;
    const { rule, message, hint } = colour
      ? messages.faintColour({ text, contrast, appearance, shade: legibleShade(colour, appearance) })
      : messages.noColour(text);
    context.addIssue({ code: 'custom', message, params: { rule, hint } });
  });

/** Colours of the site that the maker may choose. Those of charts stay, as they are held to be told apart. */
export const coloursSchema = z.strictObject({
  /** Colour of links, focus and states; what is left out stays as it is. */
  accent: z.strictObject({
    /** On light paper: `#0f5a56`. */
    light: accent('light').optional(),
    /** On dark paper: `#7ccbbf`. */
    dark: accent('dark').optional(),
  }),
});
