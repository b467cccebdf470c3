import ts from 'typescript';

/** One small bug that could be planted: what stands there, and what would stand there instead. */
export interface Change {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly was: string;
  readonly becomes: string;
  readonly kind: ChangeKind;
}

export type ChangeKind =
  | 'boundary'
  | 'comparison'
  | 'sign'
  | 'term dropped'
  | 'operands swapped'
  | 'constant'
  | 'and/or'
  | 'min/max'
  | 'not dropped'
  | 'branch'
  | 'early return';

/**
 * Every small bug that could be planted in a file: comparisons flipped or off by one, signs, terms and operands, constants,
 * and/or, min/max, branches taken the other way, early returns taken out. Types, imports and words said to people stay.
 */
export function changesIn(file: string, text: string): readonly Change[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: Change[] = [];
  const add = (node: ts.Node, kind: ChangeKind, becomes: string): void => {
    const from = node.getStart(source);
    const line = source.getLineAndCharacterOfPosition(from).line + 1;
    found.push({ file, line, from, to: node.end, was: node.getText(source), becomes, kind });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    if (ts.isBinaryExpression(node)) ofBinary(node, source, add);
    else if (ts.isPrefixUnaryExpression(node)) ofUnary(node, source, add);
    else if (ts.isNumericLiteral(node)) ofNumber(node, add);
    else if (ts.isCallExpression(node)) ofCall(node, source, add);
    else if (ts.isConditionalExpression(node)) ofConditional(node, source, add);
    else if (ts.isIfStatement(node)) ofIf(node, source, add);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

type Add = (node: ts.Node, kind: ChangeKind, becomes: string) => void;

const COMPARED: Readonly<Record<string, readonly [boundary: string | null, flipped: string]>> = {
  '<': ['<=', '>='],
  '<=': ['<', '>'],
  '>': ['>=', '<='],
  '>=': ['>', '<'],
  '===': [null, '!=='],
  '!==': [null, '==='],
};
const TURNED: Readonly<Record<string, string>> = {
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
  '+=': '-=',
  '-=': '+=',
};

function ofBinary(node: ts.BinaryExpression, source: ts.SourceFile, add: Add): void {
  const operator = node.operatorToken.getText(source);
  const [left, right] = [node.left.getText(source), node.right.getText(source)];
  const compared = Object.hasOwn(COMPARED, operator) ? COMPARED[operator] : undefined;
  if (compared !== undefined) {
    const [boundary, flipped] = compared;
    if (boundary !== null) add(node, 'boundary', `${left} ${boundary} ${right}`);
    add(node, 'comparison', `${left} ${flipped} ${right}`);
    return;
  }
  if (operator === '&&' || operator === '||') {
    add(node, 'and/or', `${left} ${operator === '&&' ? '||' : '&&'} (${right})`);
    add(node, 'term dropped', left);
    return;
  }
  if (!Object.hasOwn(TURNED, operator) || isText(node)) return;
  add(node, 'sign', `${left} ${TURNED[operator]} ${right}`);
  if (operator === '+' || operator === '-') add(node, 'term dropped', left);
  if (operator === '-') add(node, 'operands swapped', `(${right}) - (${left})`);
}

/** Words put together are no sum. */
function isText(node: ts.BinaryExpression): boolean {
  return [node.left, node.right].some(
    (side) =>
      ts.isStringLiteralLike(side) ||
      ts.isTemplateExpression(side) ||
      (ts.isBinaryExpression(side) && isText(side)),
  );
}

function ofUnary(node: ts.PrefixUnaryExpression, source: ts.SourceFile, add: Add): void {
  const operand = node.operand.getText(source);
  if (node.operator === ts.SyntaxKind.MinusToken) add(node, 'sign', operand);
  if (node.operator === ts.SyntaxKind.ExclamationToken) add(node, 'not dropped', operand);
}

/** Whole numbers by one, others by half as much again: as large as a slip of the pen, so that it can matter. */
function ofNumber(node: ts.NumericLiteral, add: Add): void {
  if (!isExpression(node)) return;
  const value = Number(node.text);
  add(node, 'constant', String(Number.isInteger(value) ? value + 1 : value * 1.5));
}

/** A number may also stand as a key of an object. */
const isExpression = (node: ts.NumericLiteral): boolean =>
  !(ts.isPropertyAssignment(node.parent) && node.parent.name === node);

const OTHER_CALL: Readonly<Record<string, string>> = {
  'Math.min': 'Math.max',
  'Math.max': 'Math.min',
  'Math.floor': 'Math.ceil',
  'Math.ceil': 'Math.floor',
};

function ofCall(node: ts.CallExpression, source: ts.SourceFile, add: Add): void {
  const called = node.expression.getText(source);
  const rest = node.getText(source).slice(called.length);
  if (Object.hasOwn(OTHER_CALL, called)) add(node, 'min/max', `${OTHER_CALL[called]}${rest}`);
  if (called === 'Math.abs') add(node, 'sign', rest);
  const [, object, name] = /^(.*)\.(some|every)$/s.exec(called) ?? [];
  if (name !== undefined) add(node, 'and/or', `${object}.${name === 'some' ? 'every' : 'some'}${rest}`);
}

function ofConditional(node: ts.ConditionalExpression, source: ts.SourceFile, add: Add): void {
  const [when, yes, no] = [node.condition, node.whenTrue, node.whenFalse].map((part) => part.getText(source));
  add(node, 'branch', `${when} ? ${no} : ${yes}`);
}

/** `if (…) return …;` and its like, without an else. */
function ofIf(node: ts.IfStatement, source: ts.SourceFile, add: Add): void {
  if (node.elseStatement !== undefined || !leaves(node.thenStatement)) return;
  add(node.expression, 'early return', `(${node.expression.getText(source)}) && false`);
}

function leaves(statement: ts.Statement): boolean {
  if (ts.isBlock(statement)) return statement.statements.length === 1 && leaves(statement.statements[0]);
  return (
    ts.isReturnStatement(statement) || ts.isContinueStatement(statement) || ts.isThrowStatement(statement)
  );
}
