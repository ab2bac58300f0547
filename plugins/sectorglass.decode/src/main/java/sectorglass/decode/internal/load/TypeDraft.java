package sectorglass.decode.internal.load;

import java.util.ArrayList;
import java.util.List;

import sectorglass.decode.internal.run.TypeSpec;

/** A type while its spec is being loaded. */
final class TypeDraft {
    final TypeSpec spec;
    final YamlMap map;
    final TypeDraft outer;
    final List<FieldDraft> seq = new ArrayList<>();
    final List<FieldDraft> instances = new ArrayList<>();
    final List<FieldDraft> params = new ArrayList<>();
    final List<TypeDraft> types = new ArrayList<>();
    /** The {@code switch-on} of its own byte order, or null. */
    YamlMap endianSwitch;

    TypeDraft(TypeSpec spec, YamlMap map, TypeDraft outer) {
        this.spec = spec;
        this.map = map;
        this.outer = outer;
    }

    /** Fields, instances and parameters. */
    List<FieldDraft> all() {
        List<FieldDraft> all = new ArrayList<>(seq);
        all.addAll(instances);
        all.addAll(params);
        return all;
    }
}
