/** Two stretches of bytes side by side: two images, or two places of one; scrolled together, what differs marked. */
package sectorglass.workbench.compare;
