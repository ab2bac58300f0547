package sectorglass.workbench.recovery.proposals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.SashForm;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.DirectoryDialog;
import org.eclipse.swt.widgets.Table;
import org.eclipse.swt.widgets.TableColumn;
import org.eclipse.swt.widgets.TableItem;
import org.eclipse.swt.widgets.Text;

import sectorglass.disk.Survey;
import sectorglass.image.Progress;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.recovery.JobFile;
import sectorglass.recovery.SearchResult;
import sectorglass.recovery.SearchStore;
import sectorglass.recovery.propose.HandEdit;
import sectorglass.recovery.propose.Proposal;
import sectorglass.recovery.propose.ProposalExport;
import sectorglass.recovery.propose.Proposals;
import sectorglass.recovery.propose.SearchSites;
import sectorglass.recovery.propose.Sites;
import sectorglass.verify.Findings;
import sectorglass.verify.RuleBook;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.recovery.RecoverPart;
import sectorglass.workbench.recovery.WorkBar;
import sectorglass.workbench.recovery.Words;

/** Corrections that can be proven, with the fields before and after, what speaks against each, and which checks turn. */
public final class ProposalsPart extends RecoverPart {
    private static final String[] LIST = {"rank", "title", "checks"};
    private static final int[] LIST_WIDTHS = {36, 330, 110};
    private static final String[] ROWS = {"place", "field", "before", "after", "why"};
    private static final int[] ROW_WIDTHS = {120, 210, 170, 170, 300};

    private final Runnable listener = this::corrected;
    private SectorImage base;
    private List<Proposal> proposals = List.of();
    private List<ChangeRows.Row> rows = List.of();
    private Table list;
    private Text prose;
    private Table table;
    private Button export;
    private Button copy;
    private Button show;
    private Button undo;
    private Button redo;
    private WorkBar bar;

    @Override
    protected void create(Composite parent) {
        SashForm sash = new SashForm(parent, SWT.HORIZONTAL);
        sash.setLayoutData(new GridData(SWT.FILL, SWT.FILL, true, true));
        list = table(sash, LIST, LIST_WIDTHS);
        list.addListener(SWT.Selection, event -> chosen());
        SashForm right = new SashForm(sash, SWT.VERTICAL);
        prose = new Text(right, SWT.MULTI | SWT.READ_ONLY | SWT.WRAP | SWT.V_SCROLL | SWT.BORDER);
        table = table(right, ROWS, ROW_WIDTHS);
        table.addListener(SWT.Selection, event -> {
            if (table.getSelectionIndex() >= 0) {
                Bench.desk().goTo(rows.get(table.getSelectionIndex()).at(), Words.of("part.proposals.step"));
            }
        });
        right.setWeights(45, 55);
        sash.setWeights(34, 66);
        Composite low = row(parent, 7);
        button(low, Words.of("proposals.look"), this::look);
        show = new Button(low, SWT.TOGGLE);
        show.setText(Words.of("proposals.show"));
        show.setToolTipText(Words.of("proposals.show.tip"));
        show.addListener(SWT.Selection, event -> Corrections.get().show(show.getSelection() ? selected() : null));
        undo = button(low, Words.of("proposals.undo"), () -> Corrections.get().undo());
        redo = button(low, Words.of("proposals.redo"), () -> Corrections.get().redo());
        export = button(low, Words.of("proposals.export"), this::export);
        copy = new Button(low, SWT.CHECK);
        copy.setText(Words.of("proposals.copy"));
        copy.setSelection(true);
        bar = new WorkBar(low);
        Corrections.get().add(listener);
    }

    private static Table table(Composite parent, String[] columns, int[] widths) {
        Table made = new Table(parent, SWT.FULL_SELECTION | SWT.BORDER);
        made.setHeaderVisible(true);
        for (int i = 0; i < columns.length; i++) {
            TableColumn column = new TableColumn(made, SWT.LEFT);
            column.setText(Words.of("proposals." + columns[i]));
            column.setWidth(widths[i]);
        }
        return made;
    }

    @Override
    protected boolean tellsAnswers() {
        return true;
    }

    @Override
    protected String purpose() {
        return Words.of("proposals.empty");
    }

    @Override
    protected void opened() {
        SectorImage now = Corrections.get().base();
        if (now != base) {
            bar.stop();
            base = now;
            proposals = List.of();
            fill();
            bar.say(Words.of("proposals.offer"));
        }
        corrected();
    }

    @Override
    protected void closed() {
        bar.stop();
        base = null;
        proposals = List.of();
        fill();
    }

    /** Looks for corrections of the open image. */
    public void look() {
        SectorImage of = base;
        Path job = Bench.desk().open().path() == null ? null : JobFile.beside(Bench.desk().open().path());
        bar.start(Words.of("proposals.looking"), progress -> found(of, job, progress), found -> {
            proposals = found;
            fill();
            bar.say(found.isEmpty() ? Words.of("proposals.none") : Words.of("proposals.found", found.size()));
            if (!found.isEmpty()) {
                list.select(0);
                chosen();
            }
        });
    }

    private static List<Proposal> found(SectorImage image, Path job, Progress progress) throws IOException {
        SearchResult known = job != null && Files.exists(job) ? new SearchStore(JobFile.open(job)).result().orElse(null) : null;
        Sites sites = SearchSites.of(image, known, SearchSites.wanted(Survey.of(image, progress)), progress);
        return new Proposals(RuleBook.ofProviders(Locale.getDefault()), sites::volumes).of(image, progress);
    }

    /** The proposals found, best first. */
    public List<Proposal> proposals() {
        return proposals;
    }

    /** The lines of before and after that are shown. */
    public int lines() {
        return rows.size();
    }

    private void fill() {
        list.removeAll();
        for (int i = 0; i < proposals.size(); i++) {
            Proposal proposal = proposals.get(i);
            new TableItem(list, SWT.NONE).setText(new String[] {String.valueOf(i + 1), SafeText.of(proposal.title()),
                proposal.effect().harms() ? Words.of("proposals.harms") : proposal.agreement() ? Words.of("proposals.agree")
                        : failing(proposal.effect().before()) + " → " + failing(proposal.effect().after())});
        }
        rows = List.of();
        table.removeAll();
        prose.setText("");
        enable();
    }

    private static int failing(Findings.Counts counts) {
        return counts.unusable() + counts.atRisk() + counts.cosmetic() + counts.notChecked();
    }

    private Proposal selected() {
        int at = list.getSelectionIndex();
        return at < 0 || at >= proposals.size() ? null : proposals.get(at);
    }

    private void enable() {
        boolean any = selected() != null;
        show.setEnabled(any || Corrections.get().shown() != null);
        show.setSelection(Corrections.get().shown() != null);
        export.setEnabled(!proposals.isEmpty() || Corrections.get().canUndo());
        undo.setEnabled(Corrections.get().canUndo());
        redo.setEnabled(Corrections.get().canRedo());
    }

    private void chosen() {
        Proposal proposal = selected();
        enable();
        if (proposal == null) {
            return;
        }
        prose.setText(ProposalProse.of(proposal, base.sectorSize()));
        if (Corrections.get().shown() != null && Corrections.get().shown() != proposal) {
            Corrections.get().show(proposal);
        }
        SectorImage of = base;
        bar.start(Words.of("proposals.decoding"), progress -> new ChangeRows(of, Survey.of(proposal.over(of), progress)).of(proposal.changes()),
                this::rows);
    }

    private void rows(List<ChangeRows.Row> made) {
        rows = made;
        table.removeAll();
        int size = base.sectorSize();
        for (ChangeRows.Row row : made) {
            new TableItem(table, SWT.NONE).setText(new String[] {Words.of("proposals.at", Numbers.grouped(row.at() / size), row.at() % size),
                SafeText.of(row.field()), SafeText.of(row.before()), SafeText.of(row.now()), SafeText.of(row.why())});
        }
        bar.say(Words.of("proposals.fields", made.size()));
    }

    private void corrected() {
        if (list == null || list.isDisposed()) {
            return;
        }
        enable();
        Corrections all = Corrections.get();
        if (all.trouble() != null) {
            bar.say(all.trouble());
        } else if (!bar.busy() && (all.canUndo() || all.canRedo())) {
            bar.say(Words.of("proposals.hand", all.counts()[0], all.counts()[1]));
        }
    }

    private void export() {
        DirectoryDialog dialog = new DirectoryDialog(getSite().getShell(), SWT.SAVE);
        dialog.setText(Words.of("proposals.export.title"));
        String folder = dialog.open();
        if (folder != null) {
            export(Path.of(folder), copy.getSelection());
        }
    }

    /** Writes all proposals, and the changes by hand if there are some, into a folder. */
    public void export(Path folder, boolean withCopy) {
        SectorImage of = base;
        List<Proposal> all = new ArrayList<>(proposals);
        Proposal first = selected();
        if (first != null) {
            all.remove(first);
            all.add(0, first);
        }
        var hand = Corrections.get().handChanges();
        bar.start(Words.of("proposals.exporting"), progress -> {
            if (!hand.isEmpty()) {
                Proposals engine = new Proposals(RuleBook.ofProviders(Locale.getDefault()), (image, disk) -> List.of());
                all.add(engine.judged(of, List.of(HandEdit.of(hand, Locale.getDefault())), progress));
            }
            return new ProposalExport(folder, of).write(all, withCopy, progress);
        }, written -> bar.say(Words.of("proposals.exported", written.proposals().size(), written.sectors().size(), folder,
                written.copy() == null ? Words.of("proposals.nocopy") : written.copy().getFileName())));
    }

    @Override
    public void dispose() {
        Corrections.get().remove(listener);
        super.dispose();
    }
}
