package sectorglass.workbench.model;

import sectorglass.decode.FieldNode;
import sectorglass.decode.FieldWalk;
import sectorglass.disk.Structure;
import sectorglass.image.Window;

/**
 * A structure with its decoded fields.
 *
 * @param structure what it is
 * @param window its bytes
 * @param root its fields; null where the format cannot be used
 * @param problem why there are no fields, a sentence, or null
 */
public record Explained(Structure structure, Window window, FieldNode root, String problem) {

    /** The smallest field that holds the image byte, or null. */
    public FieldNode fieldAt(long imageByte) {
        return root == null ? null : FieldWalk.at(root, imageByte);
    }

    /** The field with this path, or null. */
    public FieldNode find(String path) {
        return root == null ? null : find(root, path);
    }

    private static FieldNode find(FieldNode node, String path) {
        if (path.equals(node.path())) {
            return node;
        }
        for (FieldNode child : node.children()) {
            FieldNode found = find(child, path);
            if (found != null) {
                return found;
            }
        }
        return null;
    }
}
