package sectorglass.workbench.preferences;

import java.util.List;

import org.eclipse.core.runtime.ILog;
import org.eclipse.core.runtime.preferences.IEclipsePreferences;
import org.eclipse.core.runtime.preferences.InstanceScope;
import org.eclipse.jface.preference.IPreferenceStore;
import org.eclipse.jface.preference.PreferenceConverter;
import org.eclipse.jface.preference.PreferencePage;
import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.graphics.FontData;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Combo;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.FontDialog;
import org.eclipse.swt.widgets.Label;
import org.eclipse.ui.IWorkbench;
import org.eclipse.ui.IWorkbenchPreferencePage;
import org.eclipse.ui.preferences.ScopedPreferenceStore;
import org.osgi.service.prefs.BackingStoreException;

import sectorglass.workbench.look.Ink;
import sectorglass.workbench.look.Look;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.look.Theme;
import sectorglass.workbench.places.Offsets;
import sectorglass.workbench.shown.ShownMenu;

/** Theme, font of the bytes, offsets, language. Keys are changed on the platform's own page. */
public final class HousePage extends PreferencePage implements IWorkbenchPreferencePage {
    /** Id of the page. */
    public static final String ID = "sectorglass.workbench.preferences";
    /** Name of the setting that the launcher reads for the language; empty: that of the system. */
    public static final String LANGUAGE = "language";
    private static final List<String> LANGUAGES = List.of("", "en", "de");

    private final IEclipsePreferences node = InstanceScope.INSTANCE.getNode("sectorglass.workbench");
    private final IPreferenceStore platform = new ScopedPreferenceStore(InstanceScope.INSTANCE, "org.eclipse.ui.workbench");
    private Combo theme;
    private Combo offsets;
    private Combo numbers;
    private Combo language;
    private Button font;
    private FontData chosen;

    @Override
    public void init(IWorkbench workbench) {
        setDescription(Texts.of("preferences.what"));
    }

    @Override
    protected Control createContents(Composite parent) {
        Composite page = new Composite(parent, SWT.NONE);
        GridLayout grid = new GridLayout(2, false);
        grid.marginWidth = 0;
        page.setLayout(grid);
        theme = combo(page, "preferences.theme");
        for (Theme each : Theme.values()) {
            theme.add(each.word());
        }
        theme.select(Ink.theme().ordinal());
        label(page, Texts.of("preferences.font"));
        font = new Button(page, SWT.PUSH);
        font.addListener(SWT.Selection, event -> askForFont());
        font.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        showFont(JFaceResources.getTextFont().getFontData()[0]);
        offsets = combo(page, "preferences.offsets");
        for (Offsets each : Offsets.values()) {
            offsets.add(each.words());
        }
        offsets.select(ShownMenu.now().offsets().ordinal());
        numbers = combo(page, "preferences.numbers");
        numbers.add(Texts.of("offsets.hex"));
        numbers.add(Texts.of("offsets.decimal"));
        numbers.select(ShownMenu.now().hex() ? 0 : 1);
        language = combo(page, "preferences.language");
        for (String each : LANGUAGES) {
            language.add(Texts.of("preferences.language." + (each.isEmpty() ? "system" : each)));
        }
        language.select(Math.max(0, LANGUAGES.indexOf(node.get(LANGUAGE, ""))));
        Label note = new Label(page, SWT.WRAP);
        note.setText(Texts.of("preferences.note"));
        GridData wide = new GridData(SWT.FILL, SWT.BEGINNING, true, false, 2, 1);
        wide.widthHint = 320;
        note.setLayoutData(wide);
        return page;
    }

    private static Combo combo(Composite page, String key) {
        label(page, Texts.of(key));
        Combo combo = new Combo(page, SWT.READ_ONLY);
        combo.setLayoutData(new GridData(SWT.FILL, SWT.CENTER, true, false));
        return combo;
    }

    private static void label(Composite page, String words) {
        new Label(page, SWT.NONE).setText(words);
    }

    private void showFont(FontData data) {
        font.setText(data.getName() + ", " + data.getHeight());
    }

    private void askForFont() {
        FontDialog dialog = new FontDialog(getShell());
        dialog.setEffectsVisible(false);
        dialog.setFontList(chosen == null ? JFaceResources.getTextFont().getFontData() : new FontData[] {chosen});
        FontData data = dialog.open();
        if (data != null) {
            chosen = data;
            showFont(data);
        }
    }

    @Override
    public boolean performOk() {
        Look.set(Theme.values()[theme.getSelectionIndex()]);
        if (chosen != null) {
            font(chosen);
        }
        Offsets from = Offsets.values()[offsets.getSelectionIndex()];
        boolean hex = numbers.getSelectionIndex() == 0;
        ShownMenu.change(shown -> shown.with(from).withHex(hex));
        node.put(LANGUAGE, LANGUAGES.get(language.getSelectionIndex()));
        try {
            node.flush();
        } catch (BackingStoreException e) {
            ILog.get().warn("The settings could not be kept.", e);
        }
        return true;
    }

    /** Sets the font of the bytes in the platform's preferences. */
    private void font(FontData data) {
        PreferenceConverter.setValue(platform, JFaceResources.TEXT_FONT, new FontData[] {data});
    }

    @Override
    protected void performDefaults() {
        theme.select(Theme.LIGHT.ordinal());
        offsets.select(Offsets.LBA.ordinal());
        numbers.select(0);
        language.select(0);
        platform.setToDefault(JFaceResources.TEXT_FONT);
        chosen = null;
        showFont(JFaceResources.getTextFont().getFontData()[0]);
        super.performDefaults();
    }
}
