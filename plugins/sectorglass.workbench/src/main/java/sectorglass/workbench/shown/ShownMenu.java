package sectorglass.workbench.shown;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;

import org.eclipse.jface.action.Action;
import org.eclipse.jface.action.ActionContributionItem;
import org.eclipse.jface.action.IAction;
import org.eclipse.jface.action.IContributionItem;
import org.eclipse.jface.action.MenuManager;
import org.eclipse.jface.action.Separator;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.PlatformUI;
import org.eclipse.ui.actions.CompoundContributionItem;

import sectorglass.workbench.look.Texts;
import sectorglass.workbench.parts.SectorsPart;
import sectorglass.workbench.parts.SectorsPreferences;
import sectorglass.workbench.places.Offsets;
import sectorglass.workbench.sectors.Density;
import sectorglass.workbench.sectors.SectorsCanvas;
import sectorglass.workbench.sectors.Shown;
import sectorglass.workbench.sectors.TextColumn;

/** Choices of the looks of the sectors, each with a mark at what holds now; the same in the main menu and in the menu of the part. */
public final class ShownMenu extends CompoundContributionItem {
    private static final int[] COLUMNS = {8, 16, 24, 32, 48, 64};

    @Override
    protected IContributionItem[] getContributionItems() {
        Shown now = now();
        MenuManager density = new MenuManager(Texts.of("menu.density"));
        for (Density each : Density.values()) {
            density.add(choice(Texts.of("density." + each.name().toLowerCase(Locale.ROOT)), now.density() == each, shown -> shown.with(each)));
        }
        MenuManager columns = new MenuManager(Texts.of("menu.columns"));
        for (int each : COLUMNS) {
            columns.add(choice(Integer.toString(each), now.columns() == each, shown -> shown.withColumns(each)));
        }
        MenuManager text = new MenuManager(Texts.of("menu.text"));
        for (TextColumn each : TextColumn.values()) {
            text.add(choice(each.words(), now.text() == each, shown -> shown.with(each)));
        }
        MenuManager offsets = new MenuManager(Texts.of("menu.offsets"));
        for (Offsets each : Offsets.values()) {
            offsets.add(choice(each.words(), now.offsets() == each, shown -> shown.with(each)));
        }
        offsets.add(new Separator());
        offsets.add(choice(Texts.of("offsets.hex"), now.hex(), shown -> shown.withHex(true)));
        offsets.add(choice(Texts.of("offsets.decimal"), !now.hex(), shown -> shown.withHex(false)));
        return new IContributionItem[] {density, columns, text, offsets};
    }

    /** The choices as items of any menu. */
    public static List<IContributionItem> items() {
        return new ArrayList<>(List.of(new ShownMenu().getContributionItems()));
    }

    private static ActionContributionItem choice(String words, boolean chosen, Function<Shown, Shown> change) {
        Action action = new Action(words, IAction.AS_RADIO_BUTTON) {
            @Override
            public void run() {
                if (isChecked()) {
                    change(change);
                }
            }
        };
        action.setChecked(chosen);
        return new ActionContributionItem(action);
    }

    /** Changes what the sectors show, and keeps it. */
    public static void change(Function<Shown, Shown> change) {
        if (canvas() != null) {
            canvas().show(change.apply(canvas().shown()));
            SectorsPreferences.keep(canvas());
        }
    }

    /** What the sectors show now. */
    public static Shown now() {
        return canvas() == null ? Shown.DEFAULT : canvas().shown();
    }

    private static SectorsCanvas canvas() {
        IViewPart part = PlatformUI.getWorkbench().getActiveWorkbenchWindow() == null ? null
                : PlatformUI.getWorkbench().getActiveWorkbenchWindow().getActivePage().findView(SectorsPart.ID);
        return part instanceof SectorsPart sectors ? sectors.canvas() : null;
    }
}
