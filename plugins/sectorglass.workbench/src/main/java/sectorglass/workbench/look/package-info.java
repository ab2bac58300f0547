/** How things look in every part: colours for the light and the dark theme, signs, numbers and texts. */
package sectorglass.workbench.look;
