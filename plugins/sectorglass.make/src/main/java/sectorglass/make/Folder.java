package sectorglass.make;

import java.util.List;

/**
 * A folder to be made.
 *
 * @param name its name
 * @param times its times
 * @param attributes attribute bits without that of a directory
 * @param children what is in it; may make its elements when asked, so that a million files need no memory, but must then give the
 *        same ones each time
 */
public record Folder(String name, Times times, int attributes, List<? extends Node> children) implements Node {

    /** A folder without attributes. */
    public static Folder of(String name, Times times, List<? extends Node> children) {
        return new Folder(name, times, 0, children);
    }

    /** A folder without attributes. */
    public static Folder of(String name, Times times, Node... children) {
        return new Folder(name, times, 0, List.of(children));
    }

    /** A root folder. */
    public static Folder root(Times times, List<? extends Node> children) {
        return new Folder("", times, 0, children);
    }

    /** A root folder. */
    public static Folder root(Times times, Node... children) {
        return new Folder("", times, 0, List.of(children));
    }
}
