/**
 * Text -> tree -> text. The only door into this folder.
 *
 *   parse(text)         never throws, always a tree, whatever the bytes
 *   parseBlock(text)    one block on its own; the same text gives the same tree
 *   splitBlocks(text)   where blocks begin, without parsing them; splitBlocksFrom(...) from one place on, after an edit
 *   createBlockCache()  a `parse` for one document that reads again only the blocks that changed
 *   format(text)        canonical layout, the same meaning
 *   formatBlocks(text)  the same block by block, for an editor; formatBlock(text) for one block
 *   printBlock(block)   canonical text of one block
 *   meaningOf(block)    what a block says, without where: for comparing
 *   VOCABULARY          every word of the language with a sentence about it
 */
export * from './tree';
export { createBlockCache, parse, parseBlock } from './parse';
export { format, formatBlock, formatBlocks, meaningOf, type BlockFormat } from './format';
export { printBlock } from './printer';
export { splitBlocks, splitBlocksFrom, type BlockText } from './scan';
export * from './vocabulary';
export { quantityMiddle, walkLines, type WalkedLine } from './walk';
export { isReadable } from './numbers';
export { editDistance, nearest } from './near';
