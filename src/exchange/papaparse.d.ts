/** What of papaparse is used here. Its published types bring all of Node's along, and this folder knows neither Node nor the browser. */
declare module 'papaparse' {
  namespace Papa {
    type ParseError = {
      readonly type: 'Quotes' | 'Delimiter' | 'FieldMismatch';
      readonly code:
        'MissingQuotes' | 'InvalidQuotes' | 'UndetectableDelimiter' | 'TooFewFields' | 'TooManyFields';
      readonly message: string;
      readonly row?: number;
      readonly index?: number;
    };
    type ParseConfig = { readonly delimiter: string; readonly newline: string; readonly quoteChar: string };
    type UnparseConfig = { readonly delimiter: string; readonly newline: string };
    type Result = { readonly data: string[][]; readonly errors: ParseError[] };
  }
  const Papa: {
    parse(text: string, config: Papa.ParseConfig): Papa.Result;
    unparse(rows: readonly (readonly string[])[], config: Papa.UnparseConfig): string;
  };
  export default Papa;
}
