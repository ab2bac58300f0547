/** The part Proposals: corrections with before and after side by side, and changes of fields by hand. */
package sectorglass.workbench.recovery.proposals;
