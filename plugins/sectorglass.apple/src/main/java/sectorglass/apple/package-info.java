/** HFS, HFS+ and APFS: recognition, structures and rules. */
package sectorglass.apple;
