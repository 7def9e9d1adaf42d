import { globSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

/** A string of the source: its text, with {0}, {1} … for what a template puts in. */
export interface SourceText {
  /** file:line */
  at: string;
  template: string;
  /** Whether it is a sentence somebody may read, or a phrase that is put into one. */
  isSaid: boolean;
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Names whose text is for the description of the API, for the log or for programs alone. */
const NOT_SAID = new Set([
  'summary',
  'description',
  'source',
  'tags',
  'content',
  'pattern',
  'headers',
  'deprecated',
  'example',
  'timeWindow',
  'deviceId',
  'password',
  'who',
]);
const NOT_SAID_CALLS = new Set([
  'describe',
  'meta',
  'regex',
  'header',
  'prepare',
  'exec',
  'pragma',
  'warn',
  'info',
  'debug',
  'sql',
  'raw',
]);

/** Every string of some files, as the compiler reads them. */
export function textsIn(patterns: readonly string[]): SourceText[] {
  return globSync([...patterns], { cwd: ROOT })
    .toSorted()
    .flatMap((file) => textsOf(file, readFileSync(`${ROOT}${file}`, 'utf8')));
}

function textsOf(file: string, code: string): SourceText[] {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.Latest, true);
  const texts: SourceText[] = [];
  const visit = (node: ts.Node, isHidden: boolean): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node)) return;
    const template = templateOf(node);
    if (template !== undefined) {
      const line = source.getLineAndCharacterOfPosition(node.getStart()).line + 1;
      texts.push({
        at: `${file}:${line}`,
        template,
        isSaid: !isHidden && (isSentence(template) || (isInTemplate(node) && isPhrase(template))),
      });
    }
    const hides = isHidden || hidesItsText(node);
    ts.forEachChild(node, (child) => visit(child, hides || isAsKey(node, child)));
  };
  visit(source, false);
  return texts;
}

function templateOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return node.head.text + node.templateSpans.map(({ literal }, at) => `{${at}}${literal.text}`).join('');
}

/** Words with a space between them, one of them in small letters. */
function isSentence(template: string): boolean {
  const words = template.replaceAll(/\{\d+\}/g, '#').split(/\s+/);
  return words.length > 1 && words.filter((word) => word !== '').length > 0 && words.some((word) => isWord(word));
}

const UNITS = new Set(['mm', 'mg', 'min', 'ml', 'ct', 'dwt', 'px', 'ozt', 'kg', 'kW', 'mL', 'or']);

function isWord(word: string): boolean {
  const bare = word.replace(/^[("'“‘]+/, '').replace(/[)"'”’,.:;!?]+$/, '');
  return /^[\p{Ll}’'-]{2,}$/u.test(bare) && !UNITS.has(bare);
}

function isPhrase(template: string): boolean {
  return template.split(/\s+/).some((word) => isWord(word));
}

/** Whether a template puts it in as it is: `${count === 1 ? 'joint' : 'joints'}`. */
function isInTemplate(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isTemplateSpan(parent)) return parent.expression === node;
  if (ts.isConditionalExpression(parent)) return parent.condition !== node && isInTemplate(parent);
  if (ts.isParenthesizedExpression(parent)) return isInTemplate(parent);
  if (ts.isBinaryExpression(parent))
    return parent.right === node && parent.operatorToken.kind === ts.SyntaxKind.QuestionQuestionToken && isInTemplate(parent);
  return false;
}

/** What is thrown as a fault of the program, told to programs, or sent to the database. */
function hidesItsText(node: ts.Node): boolean {
  if (ts.isNewExpression(node)) return ['Error', 'TypeError', 'RegExp'].includes(node.expression.getText());
  if (ts.isTaggedTemplateExpression(node)) return true;
  if (ts.isPropertyAssignment(node)) return NOT_SAID.has(node.name.getText());
  if (!ts.isCallExpression(node)) return false;
  const { expression } = node;
  const name = ts.isPropertyAccessExpression(expression) ? expression.name.text : expression.getText();
  return NOT_SAID_CALLS.has(name);
}

function isAsKey(node: ts.Node, child: ts.Node): boolean {
  return (
    (ts.isPropertyAssignment(node) && node.name === child) ||
    (ts.isElementAccessExpression(node) && node.argumentExpression === child)
  );
}
