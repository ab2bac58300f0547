/** What the job beside the image records: accepted findings, approvals. */
package sectorglass.workbench.records;
