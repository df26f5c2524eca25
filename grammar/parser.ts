/** The one parser there is, and the way to run one of its rules over the tokens of one line. */
import { EOF, type IRecognitionException, type IToken, type TokenType } from 'chevrotain';
import { keysForErrors } from './messages';
import { PropertyRules } from './rules-properties';
import { tokenTypes } from './tokens';
import type { Problem } from './tree';

/** A part of Chevrotain's recovery that its types do not show. */
interface Recovery {
  isInCurrentRuleReSyncSet(type: TokenType): boolean;
}

const chevrotainRecovery = PropertyRules.prototype as PropertyRules & Recovery;

export class BakeParser extends PropertyRules {
  /** Checking the rules themselves takes a while and is left to the tests. */
  constructor(checkRules: boolean) {
    super(tokenTypes, {
      recoveryEnabled: true,
      maxLookahead: 1,
      errorMessageProvider: keysForErrors,
      nodeLocationTracking: 'none',
      skipValidations: !checkRules,
    });
    this.performSelfAnalysis();
  }

  /** Runs `rule` over `tokens`, whose offsets are those of `text`. */
  run<T>(text: string, tokens: IToken[], rule: () => T): Reading<T> {
    this.input = tokens;
    this.text = text;
    this.found = [];
    const value = rule();
    return { value, errors: this.errors, found: this.found };
  }

  // What is missing is not made up and what is too much is not skipped one by one: a baker's text is kept as it is, and
  // the message says what to do.
  override canTokenTypeBeInsertedInRecovery(): boolean {
    return false;
  }

  override canTokenTypeBeDeletedInRecovery(): boolean {
    return false;
  }

  /** A rule that fails near the end of the line is given up alone too, so that what stands before it is kept. */
  isInCurrentRuleReSyncSet(type: TokenType): boolean {
    if (type === EOF) return true;
    return chevrotainRecovery.isInCurrentRuleReSyncSet.call(this, type);
  }

  /** Only whole rules are given up, up to the next comma or the end; that also bounds the depth on a hostile line. */
  shouldInRepetitionRecoveryBeTried(): boolean {
    return false;
  }
}

export interface Reading<T> {
  readonly value: T;
  readonly errors: readonly IRecognitionException[];
  readonly found: readonly Problem[];
}

let made: BakeParser | undefined;

/** Made when the first line is read: it takes longer than all else that a server does before it can answer. */
export function parser(): BakeParser {
  return (made ??= new BakeParser(false));
}
