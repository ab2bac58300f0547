/** What serves a teacher: covering fields and uncovering them one by one, a size for the projector, exams. */
package sectorglass.workbench.learning.teach;
