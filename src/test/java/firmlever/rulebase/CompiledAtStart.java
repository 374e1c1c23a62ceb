package firmlever.rulebase;

import firmlever.vocabulary.Vocabulary;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.drools.model.codegen.ExecutableModelProject;
import org.kie.api.KieBase;
import org.kie.api.KieServices;
import org.kie.api.builder.KieBuilder;
import org.kie.api.builder.KieFileSystem;
import org.kie.api.builder.Message;

/** The rules of a folder compiled in this process: what the built model is compared with. */
public final class CompiledAtStart {
  private CompiledAtStart() {}

  /** Compiles every rule file below {@code folder} that triage knows: all but the warranty. */
  public static RuleBase ruleBase(Vocabulary vocabulary, Path folder) throws IOException {
    KieServices services = KieServices.get();
    KieFileSystem texts = services.newKieFileSystem();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file :
          files
              .filter(
                  f ->
                      f.toString().endsWith(".drl")
                          && !f.startsWith(folder.resolve("warranty"))
                          && !f.startsWith(folder.resolve("jobcard")))
              .sorted()
              .toList()) {
        texts.write(
            "src/main/resources/firmlever/rules/" + folder.relativize(file),
            Files.readString(file));
      }
    }
    KieBuilder builder = services.newKieBuilder(texts).buildAll(ExecutableModelProject.class);
    if (builder.getResults().hasMessages(Message.Level.ERROR)) {
      throw new IllegalStateException(builder.getResults().getMessages().toString());
    }
    KieBase base =
        services.newKieContainer(services.getRepository().getDefaultReleaseId()).getKieBase();
    return new RuleBase(base, vocabulary, "sha256:compiled-at-start");
  }
}
