/** Lesson disks: what a {@code .disk} file asks for, and how it is made. */
package sectorglass.practice.lesson.disk;
