import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

/** One import line, `import type` and `import()` too. */
export interface Import {
  /** The importing file, from the top of the project. */
  readonly file: string;
  /** As it is written. */
  readonly target: string;
  /** The file it leads to; undefined for a package. */
  readonly to: string | undefined;
  /** What is imported of it; of an `import()`, or with a star, everything. */
  readonly names: readonly string[] | 'everything';
}

export interface SourceFile {
  /** From the top of the project: `src/units.ts`. */
  readonly file: string;
  readonly text: string;
  readonly syntax: ts.SourceFile;
  readonly imports: readonly Import[];
}

const TOP = join(import.meta.dirname, '../..');

/** Every TypeScript file under these folders of the project, read and parsed. */
export function sourceUnder(...folders: readonly string[]): readonly SourceFile[] {
  return folders
    .flatMap((folder) =>
      readdirSync(join(TOP, folder), { recursive: true, encoding: 'utf8' }).map((file) => join(folder, file)),
    )
    .filter((file) => file.endsWith('.ts') && !file.endsWith('.d.ts'))
    .sort()
    .map((file) => {
      const text = readFileSync(join(TOP, file), 'utf8');
      const syntax = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
      return { file, text, syntax, imports: importsIn(file, syntax) };
    });
}

/** Names that a file exports by a declaration of its own or hands on from another, and the line of each. */
export function exportsOf({
  syntax,
}: SourceFile): readonly { readonly name: string; readonly isElement: boolean }[] {
  return syntax.statements.flatMap((statement) => {
    if (ts.isExportDeclaration(statement)) {
      const { exportClause } = statement;
      if (exportClause === undefined || !ts.isNamedExports(exportClause)) return [];
      return exportClause.elements.map(({ name }) => ({ name: name.text, isElement: false }));
    }
    if (!isExported(statement)) return [];
    if (ts.isVariableStatement(statement)) {
      return statement.declarationList.declarations.flatMap(({ name }) =>
        ts.isIdentifier(name) ? [{ name: name.text, isElement: false }] : [],
      );
    }
    const { name } = statement as ts.DeclarationStatement;
    const isElement = ts.isClassDeclaration(statement) && (ts.getDecorators(statement)?.length ?? 0) > 0;
    return name === undefined ? [] : [{ name: name.text, isElement }];
  });
}

/**
 * Circles of imports: each set of files that lead to each other.
 * @param edges files by the files they import
 */
export function circles(edges: ReadonlyMap<string, readonly string[]>): readonly (readonly string[])[] {
  const order = new Map<string, number>();
  const lowest = new Map<string, number>();
  const stack: string[] = [];
  const found: string[][] = [];
  const visit = (file: string): void => {
    order.set(file, order.size);
    lowest.set(file, order.size - 1);
    stack.push(file);
    for (const next of edges.get(file) ?? []) {
      if (!order.has(next)) visit(next);
      if (stack.includes(next)) lowest.set(file, Math.min(lowest.get(file)!, lowest.get(next)!));
    }
    if (lowest.get(file) !== order.get(file)) return;
    const circle = stack.splice(stack.indexOf(file));
    if (circle.length > 1 || edges.get(file)?.includes(file)) found.push(circle.sort());
  };
  for (const file of edges.keys()) if (!order.has(file)) visit(file);
  return found;
}

/** Every comment of a file. */
export function commentsOf({ text }: SourceFile): readonly string[] {
  const scanner = ts.createScanner(ts.ScriptTarget.Latest, false, ts.LanguageVariant.Standard, text);
  const comments: string[] = [];
  for (let kind = scanner.scan(); kind !== ts.SyntaxKind.EndOfFileToken; kind = scanner.scan()) {
    if (kind === ts.SyntaxKind.SingleLineCommentTrivia || kind === ts.SyntaxKind.MultiLineCommentTrivia) {
      comments.push(scanner.getTokenText());
    }
  }
  return comments;
}

function isExported(statement: ts.Statement): boolean {
  return (
    ts.canHaveModifiers(statement) &&
    (ts.getModifiers(statement)?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false)
  );
}

function importsIn(file: string, syntax: ts.SourceFile): readonly Import[] {
  const imports: Import[] = [];
  const add = (target: string, names: Import['names']): void => {
    imports.push({
      file,
      target,
      to: target.startsWith('.') ? fileAt(join(dirname(file), target)) : undefined,
      names,
    });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) && ts.isStringLiteral(node.moduleSpecifier)) {
      const bindings = node.importClause?.namedBindings;
      const isStar = bindings !== undefined && ts.isNamespaceImport(bindings);
      const elements = bindings !== undefined && ts.isNamedImports(bindings) ? bindings.elements : [];
      const names = elements.map(({ name, propertyName }) => (propertyName ?? name).text);
      add(node.moduleSpecifier.text, isStar ? 'everything' : names);
    } else if (
      ts.isExportDeclaration(node) &&
      node.moduleSpecifier &&
      ts.isStringLiteral(node.moduleSpecifier)
    ) {
      const { exportClause } = node;
      const isNamed = exportClause !== undefined && ts.isNamedExports(exportClause);
      const names = isNamed ? exportClause.elements.map((one) => (one.propertyName ?? one.name).text) : [];
      add(node.moduleSpecifier.text, isNamed ? names : 'everything');
    } else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      const [target] = node.arguments;
      if (ts.isStringLiteral(target)) add(target.text, namesOfLazy(node));
    }
    ts.forEachChild(node, visit);
  };
  visit(syntax);
  return imports;
}

/** A folder's index is imported by the folder's name. */
function fileAt(path: string): string {
  const index = join(path, 'index.ts');
  return existsSync(join(TOP, index)) ? index : `${path}.ts`;
}

/** `const { a, b } = await import('…')` names what it takes; any other `import()` may take everything. */
function namesOfLazy({ parent }: ts.Node): Import['names'] {
  if (!ts.isAwaitExpression(parent) || !ts.isVariableDeclaration(parent.parent)) return 'everything';
  const { name } = parent.parent;
  if (!ts.isObjectBindingPattern(name)) return 'everything';
  return name.elements.map(({ propertyName, name: own }) => (propertyName ?? own).getText());
}
