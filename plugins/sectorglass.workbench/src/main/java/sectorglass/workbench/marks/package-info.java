/** Named byte ranges with notes: kept in the job file beside the image, with undo and redo, and the part that lists them. */
package sectorglass.workbench.marks;
