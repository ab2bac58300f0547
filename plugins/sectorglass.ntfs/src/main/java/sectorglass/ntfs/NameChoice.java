package sectorglass.ntfs;

import java.util.ArrayList;
import java.util.List;

/** The names of one record that are worth listing: a DOS name only where its folder has no other name of the file. */
final class NameChoice {
    private static final int MOST = 1024;

    private final List<NameValue> names = new ArrayList<>();
    private boolean dos;

    void clear() {
        names.clear();
        dos = false;
    }

    /** Takes the name in the attribute at the cursor. */
    void take(RecordView view) {
        NameValue name = NameValue.of(view);
        if (name != null) {
            take(name);
        }
    }

    void take(NameValue name) {
        if (names.size() >= MOST) {
            return;
        }
        if (name.namespace() == NameValue.DOS) {
            if (has(name.parent())) {
                return;
            }
            dos = true;
        } else if (dos) {
            names.removeIf(n -> n.namespace() == NameValue.DOS && n.parent() == name.parent());
        }
        names.add(name);
    }

    private boolean has(long parent) {
        for (NameValue name : names) {
            if (name.parent() == parent) {
                return true;
            }
        }
        return false;
    }

    int count() {
        return names.size();
    }

    String name(int i) {
        return names.get(i).name();
    }

    long parent(int i) {
        return names.get(i).parent();
    }

    int parentSequence(int i) {
        return names.get(i).parentSequence();
    }
}
