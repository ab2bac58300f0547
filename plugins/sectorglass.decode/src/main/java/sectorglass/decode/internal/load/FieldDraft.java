package sectorglass.decode.internal.load;

import org.yaml.snakeyaml.nodes.Node;

import sectorglass.decode.internal.run.Expr;
import sectorglass.decode.internal.run.FieldSpec;

/** A field while its spec is being loaded. */
final class FieldDraft {
    final FieldSpec spec;
    final TypeDraft owner;
    final YamlMap map;
    /** What the {@code type} key says, or null where bytes are read or a value is computed. */
    DataType data;
    /** Expression of a value instance once it is compiled. */
    Expr value;
    boolean typing;
    boolean typed;

    FieldDraft(FieldSpec spec, TypeDraft owner, YamlMap map) {
        this.spec = spec;
        this.owner = owner;
        this.map = map;
    }

    /** A place for problems about a key, or about the field. */
    Node at(String key) {
        return map.has(key) ? map.get(key) : map.node();
    }
}
