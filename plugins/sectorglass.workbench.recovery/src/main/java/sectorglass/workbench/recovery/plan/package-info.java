/** What to read next, in stages. */
package sectorglass.workbench.recovery.plan;
