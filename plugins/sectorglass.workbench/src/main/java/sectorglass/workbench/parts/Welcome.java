package sectorglass.workbench.parts;

import java.nio.file.Path;
import java.util.List;

import org.eclipse.jface.resource.JFaceResources;
import org.eclipse.swt.SWT;
import org.eclipse.swt.custom.ScrolledComposite;
import org.eclipse.swt.layout.GridData;
import org.eclipse.swt.layout.GridLayout;
import org.eclipse.swt.widgets.Button;
import org.eclipse.swt.widgets.Composite;
import org.eclipse.swt.widgets.Control;
import org.eclipse.swt.widgets.Label;
import org.eclipse.swt.widgets.Link;

import sectorglass.workbench.commands.OpenImages;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.opening.Recent;

/** The page of the first minute: what this is, the doors, the cautions. */
final class Welcome {
    private final ScrolledComposite scrolled;

    Welcome(Composite parent) {
        scrolled = new ScrolledComposite(parent, SWT.V_SCROLL);
        scrolled.setExpandHorizontal(true);
        scrolled.setExpandVertical(true);
        Composite page = new Composite(scrolled, SWT.NONE);
        GridLayout grid = new GridLayout();
        grid.marginWidth = 28;
        grid.marginHeight = 20;
        grid.verticalSpacing = 8;
        page.setLayout(grid);

        Label title = new Label(page, SWT.NONE);
        title.setText(Texts.of("welcome.title"));
        title.setFont(JFaceResources.getHeaderFont());
        text(page, Texts.of("welcome.what"));

        boolean read = Cautions.read();
        if (!read) {
            cautions(page);
        }
        door(page, Texts.of("welcome.open"), Texts.of("welcome.open.what"), OpenImages::ask);
        door(page, Texts.of("welcome.demo"), Texts.of("welcome.demo.what"), OpenImages::demo);
        door(page, Texts.of("welcome.learn"), Texts.of("welcome.learn.what"), Cautions::learn);

        List<Path> recent = Recent.images();
        if (!recent.isEmpty()) {
            heading(page, Texts.of("welcome.recent"));
            for (Path image : recent) {
                Link link = new Link(page, SWT.NONE);
                link.setText("<a>" + String.valueOf(image.getFileName()).replace("&", "&&").replace("<", "\u2039") + "</a>   "
                        + String.valueOf(image.getParent()).replace("&", "&&").replace("<", "\u2039"));
                link.addListener(SWT.Selection, event -> OpenImages.open(image));
            }
        }
        if (read) {
            Link again = new Link(page, SWT.NONE);
            again.setText("<a>" + Texts.of("welcome.cautions.again") + "</a>");
            again.addListener(SWT.Selection, event -> Cautions.command("sectorglass.workbench.cautions"));
        }
        scrolled.setContent(page);
        scrolled.addListener(SWT.Resize, event -> scrolled.setMinHeight(page.computeSize(scrolled.getClientArea().width, SWT.DEFAULT).y));
    }

    Control control() {
        return scrolled;
    }

    private void cautions(Composite page) {
        Composite box = new Composite(page, SWT.BORDER);
        box.setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, true, false));
        GridLayout grid = new GridLayout();
        grid.marginWidth = 14;
        grid.marginHeight = 8;
        box.setLayout(grid);
        heading(box, Texts.of("welcome.cautions"));
        for (String caution : Texts.of("welcome.cautions.text").split("\\|")) {
            text(box, "\u2013  " + caution.trim());
        }
        Button understood = new Button(box, SWT.PUSH);
        understood.setText(Texts.of("welcome.understood"));
        understood.addListener(SWT.Selection, event -> {
            Cautions.keepRead();
            box.dispose();
            page.layout(true, true);
            scrolled.setMinHeight(page.computeSize(scrolled.getClientArea().width, SWT.DEFAULT).y);
        });
    }

    private static void heading(Composite page, String words) {
        Label label = new Label(page, SWT.NONE);
        label.setText(words);
        label.setFont(JFaceResources.getBannerFont());
        GridData data = new GridData();
        data.verticalIndent = 10;
        label.setLayoutData(data);
    }

    private static void text(Composite page, String words) {
        Label label = new Label(page, SWT.WRAP);
        label.setText(words);
        GridData data = new GridData(SWT.FILL, SWT.BEGINNING, true, false);
        data.widthHint = 200;
        label.setLayoutData(data);
    }

    private static void door(Composite page, String words, String what, Runnable action) {
        Composite row = new Composite(page, SWT.NONE);
        row.setLayoutData(new GridData(SWT.FILL, SWT.BEGINNING, true, false));
        GridLayout grid = new GridLayout(2, false);
        grid.marginWidth = 0;
        grid.horizontalSpacing = 14;
        row.setLayout(grid);
        Button button = new Button(row, SWT.PUSH);
        button.setText(words);
        button.addListener(SWT.Selection, event -> action.run());
        GridData wide = new GridData(SWT.FILL, SWT.CENTER, false, false);
        wide.widthHint = Math.max(190, button.computeSize(SWT.DEFAULT, SWT.DEFAULT).x);
        button.setLayoutData(wide);
        Label label = new Label(row, SWT.WRAP);
        label.setText(what);
        GridData data = new GridData(SWT.FILL, SWT.CENTER, true, false);
        data.widthHint = 160;
        label.setLayoutData(data);
    }
}
