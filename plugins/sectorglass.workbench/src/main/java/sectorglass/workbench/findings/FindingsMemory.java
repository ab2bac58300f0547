package sectorglass.workbench.findings;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.swt.widgets.Table;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.workbench.look.Sign;

/** Keeps columns, order, severities and grouping of the findings from one start to the next. */
final class FindingsMemory {
    private static final IEclipsePreferences NODE = InstanceScope.INSTANCE.getNode("sectorglass.workbench");

    private FindingsMemory() {
    }

    static void columns(Table table) {
        FindingColumn[] columns = FindingColumn.values();
        int[] widths = numbers(NODE.get("findings.widths", ""), columns.length);
        int[] order = numbers(NODE.get("findings.columns", ""), columns.length);
        for (FindingColumn column : columns) {
            int kept = widths == null ? 0 : widths[column.ordinal()];
            table.getColumn(column.ordinal()).setWidth(kept > 8 && kept < 4000 ? kept : column.width());
        }
        if (order != null && Arrays.stream(order).distinct().filter(i -> i >= 0 && i < columns.length).count() == columns.length) {
            table.setColumnOrder(order);
        }
    }

    static boolean widthsKept() {
        return !NODE.get("findings.widths", "").isEmpty();
    }

    private static int[] numbers(String text, int count) {
        String[] parts = text.split(",");
        if (parts.length != count) {
            return null;
        }
        try {
            return Arrays.stream(parts).mapToInt(Integer::parseInt).toArray();
        } catch (NumberFormatException e) {
            return null; // written by another hand
        }
    }

    static void keepColumns(Table table) {
        NODE.put("findings.columns", join(table.getColumnOrder()));
        keep();
    }

    static void keepWidths(Table table) {
        NODE.put("findings.widths", join(Arrays.stream(table.getColumns()).mapToInt(column -> column.getWidth()).toArray()));
        keep();
    }

    private static String join(int[] numbers) {
        return String.join(",", Arrays.stream(numbers).mapToObj(Integer::toString).toList());
    }

    static FindingColumn order() {
        return of(FindingColumn.class, NODE.get("findings.order", ""), FindingColumn.SEVERITY);
    }

    static boolean backwards() {
        return NODE.getBoolean("findings.backwards", false);
    }

    static Grouping grouping() {
        return of(Grouping.class, NODE.get("findings.grouping", ""), Grouping.NONE);
    }

    static Set<Sign> signs() {
        Set<Sign> wanted = EnumSet.allOf(Sign.class);
        wanted.removeIf(sign -> NODE.get("findings.without", "").contains(sign.name()));
        return wanted;
    }

    static void keep(Question question) {
        NODE.put("findings.order", question.order().name());
        NODE.putBoolean("findings.backwards", question.backwards());
        NODE.put("findings.grouping", question.grouping().name());
        NODE.put("findings.without", String.join(",", Arrays.stream(Sign.values()).filter(sign -> !question.signs().contains(sign))
                .map(Sign::name).toList()));
        keep();
    }

    private static void keep() {
        try {
            NODE.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The settings of the findings could not be kept.", e);
        }
    }

    private static <E extends Enum<E>> E of(Class<E> type, String name, E otherwise) {
        return Arrays.stream(type.getEnumConstants()).filter(value -> value.name().equals(name)).findFirst().orElse(otherwise);
    }
}
