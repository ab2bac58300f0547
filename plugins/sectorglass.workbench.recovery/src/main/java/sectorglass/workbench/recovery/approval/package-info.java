/** The customer's approval of the list: recorded in the job, and shown. */
package sectorglass.workbench.recovery.approval;
