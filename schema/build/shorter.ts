// Makes the compiled validators short: what Ajv writes out wherever a fault may be found is said once, in `validatorHelp.ts`.
//
// Reading this code is part of every start of an editor. It is half as long without what no reader of a fault asks for.

/** Of these a reader asks which key, item or branch it was; of the others the keyword says all. */
const WITH_PARAMS = [
  'required',
  'additionalProperties',
  'propertyNames',
  'dependentRequired',
  'uniqueItems',
  'oneOf',
  'discriminator',
];

/** Of these a reader asks where in the schema they stand. */
const WITH_PLACE = ['dependentRequired', 'oneOf'];

/** A fault, and that it is put on the list. */
const FAULT = new RegExp(
  [
    String.raw`const (?<fault>err\d+) = \{instancePath(?::(?<path>[^,]*))?,`,
    String.raw`schemaPath:"(?<place>[^"]*)",keyword:"(?<keyword>\w+)",`,
    String.raw`params:(?<params>\{(?:"(?:[^"\\]|\\.)*"|[^"}])*\})(?:,propertyName:(?<name>\w+))?\};`,
    String.raw`\s*if\(vErrors === null\)\{\s*vErrors = \[\k<fault>\];\s*\}`,
    String.raw`\s*else \{\s*vErrors\.push\(\k<fault>\);\s*\}\s*errors\+\+;`,
  ].join(''),
  'g',
);

/**
 * @param code as Ajv compiles it
 * @throws where Ajv writes faults in another way than expected
 */
export function shorter(code: string): string {
  const short = code
    .replace(/(\w+)\.replace\(\/~\/g, "~0"\)\.replace\(\/\\\/\/g, "~1"\)/g, 'step($1)')
    .replaceAll(FAULT, (...found) => fault(found.at(-1) as Found))
    // What only `$data` would need, which no schema of ours has.
    .replace(/,parentData(?::data\d*)?,parentDataProperty(?::(?:"[^"]*"|\w+))?,rootData(?=\})/g, '')
    .replace(/, parentData, parentDataProperty, rootData=data(?=\}=\{\})/g, '')
    // A text in place of an object with a text in it.
    .replaceAll('(data, {instancePath=""}={})', '(data, instancePath="")')
    .replace(/\{instancePath:([^{}]*)\}\)/g, '$1)')
    .replaceAll('{instancePath})', 'instancePath)')
    .replace(
      /if\(!\((validate\d+)\((.*?)\)\)\)\{\s*vErrors = vErrors === null \? \1\.errors : vErrors\.concat\(\1\.errors\);\s*errors = vErrors\.length;\s*\}/g,
      'vErrors = inside(vErrors, $1, $2);',
    )
    .replace(/(\w[\w.]*) && typeof \1 == "object" && !Array\.isArray\(\1\)/g, 'isMap($1)');
  const counted = withoutCount(short);
  if (
    /\b(?:parentData|rootData|errors(?! = vErrors;))\b|\{instancePath|schemaPath:/.test(counted)
  ) {
    throw new Error('the compiled validators tell their faults in another way than expected');
  }
  return withoutUnused(counted);
}

interface Found {
  readonly path?: string;
  readonly place: string;
  readonly keyword: string;
  readonly params: string;
  readonly name?: string;
}

function fault({ path = 'instancePath', place, keyword, params, name }: Found): string {
  const isInBranch = keyword === 'required' && place.includes('/oneOf/');
  const given = [
    WITH_PARAMS.includes(keyword) ? params : '',
    isInBranch || WITH_PLACE.includes(keyword) ? `"${place}"` : '',
    name ?? '',
  ];
  while (given.at(-1) === '') given.pop();
  const more = given.map((one) => `, ${one === '' ? 'undefined' : one}`).join('');
  return `vErrors = told(vErrors, ${path}, "${keyword}"${more});`;
}

/** How many faults there are can be seen from the list, and need not be kept beside it. */
function withoutCount(code: string): string {
  return code
    .replaceAll('let errors = 0;', '')
    .replaceAll('errors++;', '')
    .replace(/\berrors = _errs\d+;/g, '')
    .replaceAll('return errors === 0;', 'return vErrors === null;')
    .replace(/(?<==) errors;/g, ' sizeOf(vErrors);');
}

/** Ajv names every schema, though few of them are asked for anything. */
function withoutUnused(code: string): string {
  const parts = code.split(/(?=\bconst schema\d+ = )/);
  return parts
    .map((part) => {
      const name = /^const (schema\d+) = /.exec(part)?.[1];
      const isUsed = name === undefined || new RegExp(`\\b${name}\\b(?! = )`).test(code);
      return isUsed
        ? part
        : part.replace(/^const schema\d+ = .*?;(?=const |function |export |$)/s, '');
    })
    .join('');
}
