import { expect, test } from 'vitest';
import { blockText } from '../../src/site/dataset.ts';

test('no text can end the block that it stands in, and the block reads back as it was', () => {
  const structure = { name: 'A </script><script>alert(1)</script> & "quotes"' };
  expect(blockText(structure)).not.toContain('<');
  expect(JSON.parse(blockText(structure))).toEqual(structure);
});
