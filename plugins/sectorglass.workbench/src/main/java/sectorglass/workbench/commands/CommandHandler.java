package sectorglass.workbench.commands;

import org.eclipse.core.commands.AbstractHandler;
import org.eclipse.core.commands.ExecutionEvent;
import org.eclipse.core.commands.ExecutionException;
import org.eclipse.core.runtime.ILog;
import org.eclipse.ui.IViewPart;
import org.eclipse.ui.IWorkbenchPage;
import org.eclipse.ui.PartInitException;
import org.eclipse.ui.dialogs.PreferencesUtil;
import org.eclipse.ui.handlers.HandlerUtil;

import sectorglass.workbench.byhand.ApplyFormat;
import sectorglass.workbench.chunks.PartsDialog;
import sectorglass.workbench.help.HelpTopics;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.opening.Bench;
import sectorglass.workbench.parts.ConverterPart;
import sectorglass.workbench.parts.FindPart;
import sectorglass.workbench.parts.KeysPart;
import sectorglass.workbench.parts.SectorsPart;
import sectorglass.workbench.parts.SectorsPreferences;
import sectorglass.workbench.preferences.HousePage;
import sectorglass.workbench.sectors.SectorsCanvas;
import sectorglass.workbench.sectors.TextColumn;

/** Does what a command of the workbench asks for; the last word of the command's id says what. */
public final class CommandHandler extends AbstractHandler {
    private static final String COLUMNS = "sectorglass.workbench.columns.";
    private static final String TEXT = "sectorglass.workbench.text.";
    private static final String COPY = "sectorglass.workbench.copy.";

    @Override
    public Object execute(ExecutionEvent event) throws ExecutionException {
        String id = event.getCommand().getId();
        IWorkbenchPage page = HandlerUtil.getActiveWorkbenchWindowChecked(event).getActivePage();
        String word = id.substring(id.lastIndexOf('.') + 1);
        if (id.startsWith(COLUMNS)) {
            change(page, canvas -> canvas.columns(Integer.parseInt(word)));
            return null;
        }
        if (id.startsWith(TEXT)) {
            change(page, canvas -> canvas.show(canvas.shown().with(TextColumn.valueOf(word.toUpperCase(java.util.Locale.ROOT)))));
            return null;
        }
        if (id.startsWith(COPY)) {
            CopyBytes.copy(CopyForm.of(word));
            return null;
        }
        switch (word) {
            case "open" -> OpenImages.ask();
            case "demo" -> OpenImages.demo();
            case "disks" -> FurtherDisksDialog.ask();
            case "parts" -> PartsDialog.ask(HandlerUtil.getActiveShell(event), Bench.desk().open());
            case "close" -> Bench.desk().show(null, null);
            case "lba" -> GoTo.place();
            case "find" -> show(page, FindPart.ID);
            case "byte" -> GoTo.imageByte();
            case "back" -> Bench.desk().back();
            case "forward" -> Bench.desk().forward();
            case "follow" -> Bench.desk().follow();
            case "density" -> change(page, canvas -> canvas.density(canvas.shown().density().next()));
            case "theme" -> Look.toggle();
            case "help" -> help(page, HelpTopics.of(page.getActivePart()));
            case "card" -> help(page, HelpTopics.CARD);
            case "guide" -> help(page, HelpTopics.GUIDE);
            case "learn" -> help(page, HelpTopics.LEARN);
            case "cautions" -> help(page, HelpTopics.CAUTIONS);
            case "converter" -> show(page, ConverterPart.ID);
            case "format" -> ApplyFormat.ask(HandlerUtil.getActiveShell(event));
            case "withdraw" -> ApplyFormat.withdraw();
            case "preferences" -> PreferencesUtil.createPreferenceDialogOn(HandlerUtil.getActiveShell(event), HousePage.ID, null, null).open();
            default -> throw new ExecutionException(id);
        }
        return null;
    }

    private static void change(IWorkbenchPage page, java.util.function.Consumer<SectorsCanvas> how) {
        if (show(page, SectorsPart.ID) instanceof SectorsPart part) {
            how.accept(part.canvas());
            SectorsPreferences.keep(part.canvas());
        }
    }

    private static void help(IWorkbenchPage page, String topic) {
        if (show(page, KeysPart.ID) instanceof KeysPart part) {
            part.show(topic);
        }
    }

    private static IViewPart show(IWorkbenchPage page, String id) {
        try {
            return page.showView(id);
        } catch (PartInitException e) {
            ILog.get().error("The part " + id + " cannot be shown.", e);
            return null;
        }
    }
}
