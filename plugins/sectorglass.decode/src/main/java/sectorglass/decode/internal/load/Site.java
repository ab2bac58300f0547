package sectorglass.decode.internal.load;

import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.run.ValueType;

/**
 * Where an expression stands.
 *
 * @param scope the type whose names it sees
 * @param file file of the spec
 * @param node the scalar that holds it
 * @param item type of {@code _}, or null where there is none
 */
record Site(TypeSpec scope, String file, Node node, ValueType item) {

    /** Characters between the mark of the node and the first one of the expression; -1 where lines are folded. */
    int before() {
        if (!(node instanceof ScalarNode scalar)) {
            return -1;
        }
        boolean oneLine = node.getStartMark().getLine() == node.getEndMark().getLine();
        return oneLine ? scalar.isPlain() ? 0 : 1 : -1;
    }

    Site with(ValueType newItem) {
        return new Site(scope, file, node, newItem);
    }
}
