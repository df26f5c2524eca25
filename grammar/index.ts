/**
 * Text -> tree -> text. The only door into this folder.
 *
 *   parse(text)         never throws, always a tree, whatever the bytes
 *   parseBlock(text)    one block on its own; the same text gives the same tree
 *   splitBlocks(text)   where blocks begin, without parsing them
 *   createBlockCache()  a `parse` for one document that reads again only the blocks that changed
 *   format(text)        canonical layout
 *   formatBlock(text)   the same for one block
 *   printBlock(block)   canonical text of one block
 *   VOCABULARY          every word of the language with a sentence about it
 */
export * from './tree';
export { createBlockCache, parse, parseBlock } from './parse';
export { splitBlocks, type BlockText } from './scan';
export * from './vocabulary';
export { quantityMiddle, walkLines, type WalkedLine } from './walk';
export { nearest } from './near';
