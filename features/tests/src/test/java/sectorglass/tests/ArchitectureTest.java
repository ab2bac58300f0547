package sectorglass.tests;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;

/** Holds the arrows of docs/architecture.md: each bundle may use only the rooms below it. */
class ArchitectureTest {
    /** What each bundle may use of ours. */
    private static final Map<String, List<String>> ARROWS = Map.ofEntries(
            Map.entry("image", List.of()),
            Map.entry("decode", List.of("image")),
            Map.entry("verify", List.of("image")),
            Map.entry("disk", List.of("image", "decode", "verify")),
            Map.entry("partition", List.of("image", "decode", "verify", "disk")),
            Map.entry("drive", List.of("image", "decode", "verify", "disk")),
            Map.entry("ntfs", List.of("image", "decode", "verify", "disk")),
            Map.entry("fat", List.of("image", "decode", "verify", "disk")),
            Map.entry("exfat", List.of("image", "decode", "verify", "disk")),
            Map.entry("ext", List.of("image", "decode", "verify", "disk")),
            Map.entry("apple", List.of("image", "decode", "verify", "disk")),
            Map.entry("volumes", List.of("image", "decode", "verify", "disk")),
            Map.entry("make", List.of("image")),
            Map.entry("recovery", List.of("image", "decode", "verify", "disk")),
            Map.entry("filetest", List.of("image", "disk", "recovery")),
            Map.entry("report", List.of("image", "decode", "verify", "disk", "recovery")),
            Map.entry("practice", List.of("image", "decode", "verify", "disk", "recovery", "report", "make")),
            Map.entry("cli", List.of("image", "decode", "verify", "disk", "recovery", "report", "practice", "make")));

    private static final JavaClasses ALL = new ClassFileImporter().withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("sectorglass");

    @TestFactory
    List<DynamicTest> everyBundleUsesOnlyTheRoomsBelowIt() {
        List<DynamicTest> tests = new ArrayList<>();
        ARROWS.forEach((bundle, below) -> tests.add(DynamicTest.dynamicTest(bundle, () -> {
            List<String> allowed = new ArrayList<>(List.of("sectorglass." + bundle + ".."));
            below.forEach(b -> allowed.add("sectorglass." + b));
            String[] forbidden = ARROWS.keySet().stream().filter(b -> !b.equals(bundle) && !below.contains(b))
                    .map(b -> "sectorglass." + b + "..").toArray(String[]::new);
            noClasses().that().resideInAPackage("sectorglass." + bundle + "..").should().dependOnClassesThat()
                    .resideInAnyPackage(forbidden).allowEmptyShould(false).check(ALL);
        })));
        return tests;
    }

    @Test
    void nobodyUsesAnothersInternals() {
        for (String bundle : ARROWS.keySet()) {
            noClasses().that().resideInAPackage("sectorglass..").and().resideOutsideOfPackage("sectorglass." + bundle + "..")
                    .should().dependOnClassesThat().resideInAPackage("sectorglass." + bundle + ".internal..").check(ALL);
        }
    }

    @Test
    void enginesKnowNoUserInterface() {
        noClasses().that().resideOutsideOfPackage("sectorglass.workbench..").should().dependOnClassesThat()
                .resideInAnyPackage("org.eclipse.swt..", "org.eclipse.jface..", "org.eclipse.ui..", "org.eclipse.e4..", "javax.swing..")
                .check(ALL);
    }

    @Test
    void nothingReachesTheNetwork() {
        noClasses().should().dependOnClassesThat().resideInAnyPackage("java.net.http..", "javax.net..").check(ALL);
        noClasses().should().dependOnClassesThat().haveFullyQualifiedName("java.net.Socket").check(ALL);
        noClasses().should().dependOnClassesThat().haveFullyQualifiedName("java.net.URLConnection").check(ALL);
    }

    @Test
    void providersArePublicWithAPublicConstructorAndHoldNoReferences() {
        classes().that().areAnnotatedWith("org.osgi.service.component.annotations.Component").should().bePublic().check(ALL);
    }
}
