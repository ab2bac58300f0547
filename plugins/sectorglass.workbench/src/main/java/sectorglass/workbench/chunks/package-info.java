/** The parts of a chunk set in the window: what proves their order, and another order chosen by hand. */
package sectorglass.workbench.chunks;
