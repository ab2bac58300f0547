package sectorglass.decode.internal.load;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import sectorglass.decode.internal.run.FieldSpec;
import sectorglass.decode.internal.run.TypeSpec;
import sectorglass.decode.internal.text.EnumTable;

/** Everything known while a spec and its imports are loaded; finds types and enumerations by name. */
final class Universe {
    final Problems problems = new Problems();
    /** Files by path; a value of null: it could not be read. */
    final Map<String, TypeDraft> files = new LinkedHashMap<>();
    /** Outermost types by name. */
    final Map<String, TypeSpec> tops = new LinkedHashMap<>();
    final Map<TypeSpec, TypeDraft> drafts = new LinkedHashMap<>();
    final Map<FieldSpec, FieldDraft> fields = new HashMap<>();

    /** The type of a name as seen from a type, or null: from the inside out, then the outermost types. */
    TypeSpec type(TypeSpec from, List<String> path) {
        for (TypeSpec scope = from; scope != null; scope = scope.outer()) {
            TypeSpec found = within(scope.types().get(path.get(0)), path, 1);
            if (found == null && scope.name().equals(path.get(0))) {
                found = within(scope, path, 1);
            }
            if (found != null) {
                return found;
            }
        }
        return within(tops.get(path.get(0)), path, 1);
    }

    private static TypeSpec within(TypeSpec start, List<String> path, int from) {
        TypeSpec type = start;
        for (int i = from; type != null && i < path.size(); i++) {
            type = type.types().get(path.get(i));
        }
        return type;
    }

    /** The enumeration of a name as seen from a type, or null. */
    EnumTable enumeration(TypeSpec from, List<String> path) {
        String last = path.get(path.size() - 1);
        if (path.size() > 1) {
            List<String> outer = path.subList(0, path.size() - 1);
            for (TypeSpec scope = from; scope != null; scope = scope.outer()) {
                TypeSpec type = within(scope.types().get(outer.get(0)), outer, 1);
                if (type == null && scope.name().equals(outer.get(0))) {
                    type = within(scope, outer, 1);
                }
                if (type != null && type.enums().containsKey(last)) {
                    return type.enums().get(last);
                }
            }
            TypeSpec type = within(tops.get(outer.get(0)), outer, 1);
            return type == null ? null : type.enums().get(last);
        }
        for (TypeSpec scope = from; scope != null; scope = scope.outer()) {
            EnumTable found = scope.enums().get(last);
            if (found != null) {
                return found;
            }
        }
        return null;
    }

    FieldDraft draft(FieldSpec field) {
        return fields.get(field);
    }
}
