package sectorglass.workbench.parts;

import java.time.ZoneId;
import java.util.OptionalLong;

import sectorglass.decode.FieldNode;
import sectorglass.image.ByteRange;
import sectorglass.image.ReadState;
import sectorglass.image.SafeText;
import sectorglass.image.SectorImage;
import sectorglass.image.Window;
import sectorglass.verify.Finding;
import sectorglass.workbench.convert.Conversions;
import sectorglass.workbench.convert.Form;
import sectorglass.workbench.look.Numbers;
import sectorglass.workbench.look.Sign;
import sectorglass.workbench.look.Texts;
import sectorglass.workbench.model.Desk;

/** The field at the caret in words. */
final class FieldProse {
    private static final int MOST_BYTES = 32;

    private FieldProse() {
    }

    static Prose of(Desk desk) {
        FieldNode field = desk.field();
        return field == null ? unexplained(desk) : desk.cover().hides(field) ? covered(desk, field) : explained(desk, field);
    }

    /** What can be seen of a covered field: its bytes and where they stand. */
    private static Prose covered(Desk desk, FieldNode field) {
        Prose prose = new Prose().title(Texts.of("cover.field")).paragraph(Texts.of("cover.text")).gap();
        prose.bytes(Texts.of("meaning.stored"), stored(desk, field));
        return prose.line(Texts.of("meaning.where"), where(desk, field, desk.open().image()));
    }

    private static Prose explained(Desk desk, FieldNode field) {
        SectorImage image = desk.open().image();
        Prose prose = new Prose();
        prose.title(SafeText.of(field.label()));
        if (field.doc() != null) {
            prose.paragraph(SafeText.of(field.doc().strip().replaceAll("\\s+", " ")));
        }
        prose.gap();
        if (field.kind() == FieldNode.Kind.VALUE) {
            prose.bytes(Texts.of("meaning.stored"), stored(desk, field));
            boolean bytesOnly = field.raw() instanceof byte[];
            if (field.state() == FieldNode.State.VIOLATED && !bytesOnly) {
                prose.wrong(Texts.of("meaning.value"), SafeText.of(field.value()));
            } else if (!bytesOnly) {
                prose.line(Texts.of("meaning.value"), SafeText.of(field.value()));
            }
            if (field.meaning() != null && !field.meaning().equals(field.value())) {
                prose.line(Texts.of("meaning.means"), SafeText.of(field.meaning()));
            }
            for (Form form : Conversions.of(field, ZoneId.systemDefault())) {
                prose.line(form.label(), form.text());
            }
            prose.line(Texts.of("meaning.expected"), SafeText.of(field.expected()));
            prose.wrong(Texts.of("meaning.problem"), SafeText.of(field.problem()));
            prose.bytes(Texts.of("meaning.bits"), Bits.drawn(field));
        }
        prose.line(Texts.of("meaning.where"), where(desk, field, image));
        prose.line(Texts.of("meaning.path"), SafeText.of(field.path()));
        pointer(desk, field, prose, image);
        if (field.length() > 0) {
            for (Finding finding : desk.open().findings(new ByteRange(field.firstByte(), field.length()))) {
                prose.gap();
                prose.line(Sign.of(finding).letter(), Sign.of(finding).word() + ": " + SafeText.of(finding.what()));
                prose.wrong(Texts.of("finding.stored"), SafeText.of(finding.stored()));
                prose.line(Texts.of("finding.computed"), SafeText.of(finding.computed()));
                prose.line(Texts.of("finding.means"), SafeText.of(finding.means()));
                prose.line(Texts.of("finding.advice"), SafeText.of(finding.advice()));
            }
        }
        prose.gap();
        prose.line(Texts.of("meaning.source"), SafeText.of(field.docRef()));
        return prose;
    }

    private static void pointer(Desk desk, FieldNode field, Prose prose, SectorImage image) {
        if (field.link() == null) {
            return;
        }
        OptionalLong target = desk.target(field);
        String unit = Texts.of("unit." + field.link().kind());
        String value = Numbers.grouped(field.link().target());
        prose.line(Texts.of("meaning.pointer"), target.isPresent()
                ? Texts.of("meaning.pointer.to", unit, value, Numbers.place(target.getAsLong(), image.sectorSize()), Numbers.grouped(target.getAsLong()))
                : Texts.of("meaning.pointer.nowhere", unit, value));
        if (target.isPresent()) {
            prose.line(Texts.of("meaning.arithmetic"), Arithmetic.of(desk, field.link(), field.firstByte(), target.getAsLong()));
        }
    }

    private static String where(Desk desk, FieldNode field, SectorImage image) {
        return Numbers.place(field.firstByte(), image.sectorSize()) + ", "
                + Texts.of("meaning.where.text", Numbers.grouped(field.offset()), Numbers.hex(field.offset(), 1), Numbers.grouped(field.length()));
    }

    private static String stored(Desk desk, FieldNode field) {
        int length = (int) Math.min(MOST_BYTES, field.length());
        if (length <= 0) {
            return Texts.of("meaning.computed");
        }
        return hex(desk.open().image().window(field.firstByte(), length)) + (field.length() > MOST_BYTES ? " \u2026" : "");
    }

    private static String hex(Window window) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < window.length(); i++) {
            text.append(i == 0 ? "" : " ").append(window.isRead(i, 1) ? Numbers.hex(window.u8(i), 2) : "\u2592\u2592");
        }
        return text.toString();
    }

    private static Prose unexplained(Desk desk) {
        SectorImage image = desk.open().image();
        long caret = desk.caret();
        Prose prose = new Prose();
        ReadState state = image.state(caret / image.sectorSize());
        if (state != ReadState.READ) {
            return prose.title(Texts.of("meaning.notread")).gap().paragraph(Texts.of("meaning.notread." + state.word()));
        }
        prose.title(Texts.of("meaning.unexplained"));
        prose.paragraph(Texts.of("meaning.unexplained.text"));
        prose.gap();
        Guesses.add(prose, image.window(caret, (int) Math.min(16, image.bytes() - caret)));
        return prose;
    }
}
