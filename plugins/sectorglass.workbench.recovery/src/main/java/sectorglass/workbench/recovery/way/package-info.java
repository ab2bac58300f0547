/** The way from LBA 0 to a file, walked step by step: each step a structure, its fields, the arithmetic, the next address. */
package sectorglass.workbench.recovery.way;
