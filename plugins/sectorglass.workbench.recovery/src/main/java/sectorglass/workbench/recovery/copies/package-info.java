/** Several images of one disk: where they agree, which of them passes, and their merging. */
package sectorglass.workbench.recovery.copies;
