package sectorglass.workbench.parts;

import java.util.Comparator;
import java.util.Locale;

import org.eclipse.jface.viewers.ArrayContentProvider;
import org.eclipse.jface.viewers.ColumnViewerToolTipSupport;
import org.eclipse.jface.viewers.TableViewer;
import org.eclipse.jface.viewers.TableViewerColumn;
import org.eclipse.jface.viewers.Viewer;
import org.eclipse.jface.viewers.ViewerComparator;
import org.eclipse.jface.viewers.ViewerFilter;
import org.eclipse.swt.SWT;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.Text;

import sectorglass.verify.Finding;
import sectorglass.verify.Findings;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;

/** What the checks found: sign, what, where, stored, computed. Choosing a line opens its bytes; Meaning explains it. */
public final class FindingsPart extends DeskPart {
    /** Id of the part. */
    public static final String ID = "sectorglass.workbench.findings";

    private EmptyHint hint;
    private Composite content;
    private TableViewer table;
    private Label summary;
    private Text words;
    private final Button[] kinds = new Button[Sign.values().length];
    private Comparator<Finding> order = FindingLabels.Column.SEVERITY.order();
    private boolean backwards;

    @Override
    void create(Composite parent) {
        hint = new EmptyHint(parent, "findings.empty");
        content = new Composite(hint.parent(), SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 0;
        grid.marginHeight = 2;
        grid.verticalSpacing = 2;
        content.setLayout(grid);
        createFilters();
        table = new TableViewer(content, SWT.SINGLE | SWT.FULL_SELECTION | SWT.H_SCROLL | SWT.V_SCROLL);
        table.getTable().setHeaderVisible(true);
        table.getTable().setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        for (FindingLabels.Column column : FindingLabels.Column.values()) {
            createColumn(column);
        }
        // the table learns its new size first
        content.addListener(SWT.Resize, event -> content.getDisplay().asyncExec(this::widen));
        ColumnViewerToolTipSupport.enableFor(table);
        table.setContentProvider(ArrayContentProvider.getInstance());
        table.setComparator(new ViewerComparator() {
            @Override
            public int compare(Viewer viewer, Object one, Object other) {
                int by = order.thenComparing(Finding::where).compare((Finding) one, (Finding) other);
                return backwards ? -by : by;
            }
        });
        table.addFilter(new ViewerFilter() {
            @Override
            public boolean select(Viewer viewer, Object parentElement, Object element) {
                return shown((Finding) element);
            }
        });
        table.addSelectionChangedListener(event -> {
            if (table.getStructuredSelection().getFirstElement() instanceof Finding finding && finding != desk().finding()) {
                desk().choose(finding);
            }
        });
    }

    private void createFilters() {
        Composite bar = new Composite(content, SWT.NONE);
        bar.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        GridLayout grid = new GridLayout(kinds.length + 2, false);
        grid.marginWidth = 8;
        grid.marginHeight = 0;
        bar.setLayout(grid);
        for (Sign sign : Sign.values()) {
            Button button = new Button(bar, SWT.CHECK);
            button.setText(sign.word());
            button.setSelection(true);
            button.addListener(SWT.Selection, event -> filter());
            kinds[sign.ordinal()] = button;
        }
        words = new Text(bar, SWT.SEARCH | SWT.ICON_CANCEL);
        words.setMessage(Texts.of("findings.words"));
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, false, false);
        wide.widthHint = 180;
        words.setLayoutData(wide);
        words.addListener(SWT.Modify, event -> filter());
        summary = new Label(bar, SWT.NONE);
        summary.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
    }

    private void createColumn(FindingLabels.Column column) {
        TableViewerColumn made = new TableViewerColumn(table, SWT.NONE);
        TableColumn control = made.getColumn();
        control.setText(Texts.of("findings." + column.name().toLowerCase(Locale.ROOT)));
        control.setWidth(column.width());
        control.setMoveable(true);
        made.setLabelProvider(new FindingLabels(column, () -> desk().open()));
        control.addListener(SWT.Selection, event -> {
            backwards = order == column.order() && !backwards;
            order = column.order();
            table.getTable().setSortColumn(control);
            table.getTable().setSortDirection(backwards ? SWT.DOWN : SWT.UP);
            table.refresh();
        });
    }

    /** Gives the room that is left to the sentence. */
    private void widen() {
        if (table.getTable().isDisposed()) {
            return;
        }
        // the last column reports the room it fills, not what it needs
        int others = FindingLabels.Column.CHECK.width();
        for (FindingLabels.Column column : FindingLabels.Column.values()) {
            if (column != FindingLabels.Column.WHAT && column != FindingLabels.Column.CHECK) {
                others += table.getTable().getColumn(column.ordinal()).getWidth();
            }
        }
        TableColumn what = table.getTable().getColumn(FindingLabels.Column.WHAT.ordinal());
        int room = table.getTable().getClientArea().width - others - 4;
        what.setWidth(Math.max(FindingLabels.Column.WHAT.width(), room));
    }

    private boolean shown(Finding finding) {
        if (!kinds[Sign.of(finding).ordinal()].getSelection()) {
            return false;
        }
        String asked = words.getText().toLowerCase(Locale.ROOT).strip();
        return asked.isEmpty() || (finding.what() + " " + finding.check() + " " + finding.means()).toLowerCase(Locale.ROOT).contains(asked);
    }

    private void filter() {
        table.refresh();
        summarise();
    }

    @Override
    public void diskChanged() {
        if (table == null) {
            return;
        }
        boolean open = desk().open() != null;
        Findings findings = open ? desk().open().findings() : null;
        table.setInput(open ? desk().open().listed() : java.util.List.of());
        if (!open) {
            hint.say(Texts.of("findings.empty"));
        } else if (findings == null) {
            hint.say(Texts.of("findings.running"));
        } else if (findings.all().isEmpty()) {
            hint.say(Texts.of("findings.nothing"));
        }
        hint.show(content, findings != null && !findings.all().isEmpty());
        content.getDisplay().asyncExec(this::widen);
        summarise();
    }

    private void summarise() {
        Findings findings = desk().open() == null ? null : desk().open().findings();
        if (findings != null) {
            int listed = desk().open().listed().size();
            summary.setText(Texts.of("findings.summary", table.getTable().getItemCount(), listed, findings.counts().passed()));
        }
    }

    @Override
    public void findingsChanged() {
        diskChanged();
    }

    @Override
    public void setFocus() {
        if (content.isVisible()) {
            table.getControl().setFocus();
        } else {
            hint.parent().setFocus();
        }
    }
}
