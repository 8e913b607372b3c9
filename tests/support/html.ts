import { HtmlValidate } from 'html-validate';

const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: {
    'long-title': 'off',
    'no-inline-style': 'error',
    'no-raw-characters': 'off',
    'no-trailing-whitespace': 'off',
    'void-style': 'off',
    'attribute-boolean-style': 'off',
    'attribute-empty-style': 'off',
    'prefer-native-element': 'off',
    'doctype-style': 'off',
    'tel-non-breaking': 'off',
  },
});

/** What is wrong with the HTML of a page, each with its place. */
export async function htmlFaults(html: string, page: string): Promise<string[]> {
  const report = await validator.validateString(html, page);
  return report.results.flatMap(({ messages }) =>
    messages.map(({ line, column, message, ruleId }) => `${line}:${column} ${message} (${ruleId})`),
  );
}
