package sectorglass.workbench.tests;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

import sectorglass.workbench.InspectPerspective;

/** Shows the perspective Recover in English, most of whose parts are never opened, and closes the window. */
class LeavingParts {

    @Test
    void leave() {
        RecoverTest.perspective(RecoverTest.RECOVER + "recover");
        assertTrue(RestoredGerman.tabs().contains("Read plan"), RestoredGerman.tabs().toString());
        RecoverTest.perspective(InspectPerspective.ID);
        assertTrue(RestoredGerman.tabs().contains("Findings"), RestoredGerman.tabs().toString());
    }
}
