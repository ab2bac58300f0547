/**
 * Documents for print: a list of blocks that HTML and PDF writers lay out, so that both say the same. Names from a disk are text, never markup,
 * whatever they hold.
 */
package sectorglass.report.document;
