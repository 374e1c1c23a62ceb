package firmlever.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import com.tngtech.archunit.library.dependencies.SlicesRuleDefinition;
import java.io.IOException;
import java.lang.reflect.Field;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.NullMarked;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;

@DisplayName("The house")
class ArchitectureTest {
  /** What people wrote; not what the rule compiler wrote. */
  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(location -> !location.contains("/firmlever/rules/"))
          .importPath(Path.of("target", "classes"));

  /** Which room leans on which; a new arrow is drawn here first. */
  private static final Path ROOMS =
      Path.of("src", "test", "resources", "firmlever", "architecture", "rooms.txt");

  @Test
  @DisplayName("has rooms, and each leans on those it is known to lean on, in no circle")
  void leansAsWritten() throws IOException {
    TreeMap<String, TreeSet<String>> leans = new TreeMap<>();
    for (JavaClass type : CLASSES) {
      TreeSet<String> on = leans.computeIfAbsent(room(type), room -> new TreeSet<>());
      type.getDirectDependenciesFromSelf().stream()
          .map(each -> each.getTargetClass().getBaseComponentType())
          .filter(target -> target.getPackageName().startsWith("firmlever."))
          .filter(target -> !target.getPackageName().startsWith("firmlever.rules"))
          .map(ArchitectureTest::room)
          .filter(room -> !room.equals(room(type)))
          .forEach(on::add);
    }
    List<String> lines =
        leans.entrySet().stream()
            .map(each -> (each.getKey() + ": " + String.join(" ", each.getValue())).strip())
            .toList();
    assertThat(lines).isEqualTo(Files.readAllLines(ROOMS));
    SlicesRuleDefinition.slices()
        .matching("firmlever.(**)")
        .should()
        .beFreeOfCycles()
        .check(CLASSES);
  }

  @Test
  @DisplayName("has no files that lean on each other in a circle")
  void hasNoCircleOfFiles() {
    SlicesRuleDefinition.slices().assignedFrom(FILES).should().beFreeOfCycles().check(CLASSES);
  }

  /** What stands in one file: a class with those within it. What templates become is no file. */
  private static final SliceAssignment FILES =
      new SliceAssignment() {
        @Override
        public SliceIdentifier getIdentifierOf(JavaClass type) {
          String name = type.getBaseComponentType().getName();
          return name.startsWith("firmlever.") && !name.startsWith("firmlever.bench.pages.")
              ? SliceIdentifier.of(name.split("\\$", 2)[0])
              : SliceIdentifier.ignore();
        }

        @Override
        public String getDescription() {
          return "source files";
        }
      };

  private static String room(JavaClass type) {
    return type.getPackageName().substring("firmlever.".length());
  }

  @Test
  @DisplayName("lets nothing be null in any room, unless it is written there")
  void isNullMarked() {
    TreeSet<String> rooms = new TreeSet<>();
    TreeSet<String> unmarked = new TreeSet<>();
    for (JavaClass type : CLASSES) {
      // What the templates are turned into is nobody's to mark.
      if (!room(type).equals("bench.pages")) {
        rooms.add(room(type));
        if (type.getPackage()
            .tryGetPackageInfo()
            .filter(about -> about.isAnnotatedWith(NullMarked.class))
            .isEmpty()) {
          unmarked.add(room(type));
        }
      }
    }
    assertThat(unmarked).as("rooms whose package-info.java lacks @NullMarked").isEmpty();
    assertThat(rooms).as("rooms looked at").hasSizeGreaterThan(30).contains("belief", "cli");
  }

  @Test
  @DisplayName("says of every option that may be left out that it may be null")
  void marksOptionsLeftOut() {
    // The checker of the build cannot tell what the command line fills.
    TreeSet<String> unmarked = new TreeSet<>();
    TreeSet<String> marked = new TreeSet<>();
    for (JavaClass type : CLASSES) {
      if (type.isAnnotatedWith(Command.class)) {
        for (ArgSpec arg : CommandSpec.forAnnotatedObject(type.reflect()).args()) {
          if (!arg.required() && arg.defaultValue() == null && arg.initialValue() == null) {
            Field field = (Field) arg.userObject();
            boolean said = field.getAnnotatedType().isAnnotationPresent(Nullable.class);
            (said ? marked : unmarked).add(type.getSimpleName() + "." + field.getName());
          }
        }
      }
    }
    assertThat(unmarked).as("fields to mark @Nullable").isEmpty();
    assertThat(marked).contains("AskCommand.file", "JustifyCommand.html", "TriageCommand.folder");
  }

  @Test
  @DisplayName("has pages that no address can lead from to a file")
  void hasPagesWithoutFiles() {
    DescribedPredicate<JavaClass> touchFiles =
        DescribedPredicate.describe(
            "touch files",
            type ->
                type.getPackageName().startsWith("java.nio.file")
                    || type.getName().startsWith("java.nio.channels.FileChannel")
                    || List.of(
                            "java.io.File",
                            "java.io.FileInputStream",
                            "java.io.FileOutputStream",
                            "java.io.FileReader",
                            "java.io.FileWriter",
                            "java.io.RandomAccessFile",
                            "firmlever.document.Folder",
                            "firmlever.document.WholeFile")
                        .contains(type.getName()));
    noClasses()
        .that()
        .resideInAnyPackage("firmlever.bench..", "firmlever.web..", "firmlever.picture..")
        .should()
        .dependOnClassesThat(touchFiles)
        .check(CLASSES);
    classes()
        .that()
        .haveSimpleName("PhotoFolder")
        .should()
        .dependOnClassesThat(touchFiles)
        .because("otherwise this test would look for the wrong classes")
        .check(CLASSES);
  }

  @Test
  @DisplayName("has one door to the rule engine: the rule base")
  void hasOneDoorToTheEngine() {
    noClasses()
        .that()
        .resideOutsideOfPackages("firmlever.rulebase..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.drools..", "org.kie..")
        .check(CLASSES);
    classes()
        .that()
        .haveSimpleName("RuleBase")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("org.kie..")
        .because("otherwise this test would look for the wrong packages")
        .check(CLASSES);
  }

  @ParameterizedTest(name = "keeps {0} pure: nothing but Java and what lies below it")
  @ValueSource(strings = {"belief", "plan", "hydraulics"})
  void keepsTheCorePure(String name) {
    noClasses()
        .that()
        .resideInAPackage("firmlever." + name + "..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(
            "org.drools..",
            "org.kie..",
            "tools.jackson..",
            "picocli..",
            "java.io..",
            "java.nio..",
            "java.net..",
            "firmlever.casefile..",
            "firmlever.rulebase..")
        .allowEmptyShould(true)
        .check(CLASSES);
  }

  @Test
  @DisplayName("has an interview that knows neither file nor terminal")
  void hasAPureInterview() {
    noClasses()
        .that()
        .resideInAPackage("firmlever.interview..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("java.nio..", "java.net..", "picocli..", "firmlever..report..")
        .check(CLASSES);
  }

  @Test
  @DisplayName(
      "leaves the stemming library to the hearing, which no case without a complaint needs")
  void leavesLuceneToTheHearing() {
    noClasses()
        .that()
        .resideOutsideOfPackages("firmlever.hearing..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("org.apache.lucene..", "org.tartarus..")
        .check(CLASSES);
  }

  @Test
  @DisplayName("has no clock, no old dates, no chance and no printing outside its front door")
  void hasNoClock() {
    noClasses()
        .should()
        .dependOnClassesThat()
        .belongToAnyOf(
            java.util.Date.class,
            java.util.Calendar.class,
            java.text.SimpleDateFormat.class,
            java.time.Clock.class,
            java.util.Random.class)
        .check(CLASSES);
    noClasses()
        .should()
        .callMethod(System.class, "currentTimeMillis")
        .orShould()
        .callMethod(System.class, "nanoTime")
        .orShould()
        .callMethod(java.time.LocalDate.class, "now")
        .orShould()
        .callMethod(java.time.LocalDateTime.class, "now")
        .orShould()
        .callMethod(java.time.Instant.class, "now")
        .orShould()
        .callMethod(Math.class, "random")
        .check(CLASSES);
    // One class reads the clock and hands it on, where a program runs for days and must know them.
    noClasses()
        .that()
        .doNotHaveFullyQualifiedName("firmlever.cli.shell.WallClock")
        .should()
        .callMethod(java.time.InstantSource.class, "system")
        .orShould()
        .callMethod(java.time.ZoneId.class, "systemDefault")
        .check(CLASSES);
    noClasses()
        .that()
        .resideOutsideOfPackages("firmlever.cli..")
        .should()
        .accessField(System.class, "out")
        .orShould()
        .accessField(System.class, "err")
        .check(CLASSES);
  }

  @Test
  @DisplayName("never formats or folds case by the locale of the machine")
  void neverUsesTheDefaultLocale() {
    noClasses()
        .should()
        .callMethod(String.class, "format", String.class, Object[].class)
        .orShould()
        .callMethod(String.class, "formatted", Object[].class)
        .orShould()
        .callMethod(String.class, "toLowerCase")
        .orShould()
        .callMethod(String.class, "toUpperCase")
        .orShould()
        .callMethod(String.class, "getBytes")
        .orShould()
        .callMethod(Locale.class, "getDefault")
        .orShould()
        .callMethod(java.io.PrintWriter.class, "printf", String.class, Object[].class)
        .orShould()
        .callMethod(java.io.PrintWriter.class, "format", String.class, Object[].class)
        .orShould()
        .callMethod(java.io.PrintStream.class, "printf", String.class, Object[].class)
        .check(CLASSES);
  }

  @Test
  @DisplayName("holds no state that is shared between cases")
  void holdsNoSharedState() {
    com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields()
        .that()
        .areStatic()
        .and()
        .areDeclaredInClassesThat()
        .resideInAnyPackage(
            "firmlever.belief..",
            "firmlever.bench..",
            "firmlever.store..",
            "firmlever.web..",
            "firmlever.casefile..",
            "firmlever.diagnosis..",
            "firmlever.interview..",
            "firmlever.document..",
            "firmlever.rulebase..",
            "firmlever.vocabulary..",
            "firmlever.comeback..",
            "firmlever.hearing..",
            "firmlever.jobcard..",
            "firmlever.rulebook..",
            "firmlever.sheet..",
            "firmlever.warranty..",
            "firmlever.picture..",
            "firmlever.plan..",
            "firmlever.hydraulics..")
        .should()
        .beFinal()
        .check(CLASSES);
  }

  /** Public for somebody whom no class file of this build names. */
  private static final Map<String, String> FOR_OTHERS =
      Map.of(
          "firmlever.cli.review.Elsewhere",
              "src/cluster, a build of its own, runs the review by it",
          "firmlever.cli.Main.review", "the same",
          "firmlever.rulebase.Facts", "the rules a shop writes itself may ask for any fact",
          "firmlever.records.TallyFile.shape", "a test holds the number of the form to it");

  @Test
  @DisplayName("has no public method that nobody but a test calls")
  void hasNoMethodForTestsAlone() {
    // The compiled rules and pages count as callers here.
    JavaClasses all = new ClassFileImporter().importPath(Path.of("target", "classes"));
    TreeSet<String> uncalled = new TreeSet<>();
    int methods = 0;
    for (JavaClass type : all) {
      if (type.isInterface()
          || type.getPackageName().startsWith("firmlever.rules")
          || type.getPackageName().equals("firmlever.bench.pages")) {
        continue;
      }
      for (JavaMethod method : type.getMethods()) {
        if (method.getModifiers().contains(JavaModifier.PUBLIC)
            && !method.getModifiers().contains(JavaModifier.SYNTHETIC)
            && !comesWithTheType(method)
            && !isAskedForElsewhere(method)) {
          methods++;
          if (!isCalled(method)) {
            uncalled.add(method.getFullName());
          }
        }
      }
    }
    assertThat(methods).as("methods looked at").isGreaterThan(500);
    assertThat(uncalled)
        .as("public methods to delete, or to hide where their own class calls them")
        .allMatch(name -> FOR_OTHERS.keySet().stream().anyMatch(name::startsWith));
    assertThat(FOR_OTHERS.keySet())
        .as("exceptions still needed")
        .allMatch(known -> uncalled.stream().anyMatch(name -> name.startsWith(known)));
  }

  /** What the language makes: the entry, the accessors of a record, the list of an enum. */
  private static boolean comesWithTheType(JavaMethod method) {
    JavaClass type = method.getOwner();
    return method.getName().equals("main")
        || (type.isRecord()
            && method.getParameters().isEmpty()
            && type.tryGetField(method.getName()).isPresent())
        || (type.isEnum() && List.of("values", "valueOf").contains(method.getName()));
  }

  /** Whether it answers to a class or an interface above, through which it is called. */
  private static boolean isAskedForElsewhere(JavaMethod method) {
    JavaClass type = method.getOwner();
    return Stream.concat(type.getAllRawSuperclasses().stream(), type.getAllRawInterfaces().stream())
        .flatMap(above -> above.getMethods().stream())
        .anyMatch(
            each ->
                each.getName().equals(method.getName())
                    && each.getParameters().size() == method.getParameters().size());
  }

  private static boolean isCalled(JavaMethod method) {
    return Stream.concat(method.getCallsOfSelf().stream(), method.getReferencesToSelf().stream())
        .anyMatch(access -> !access.getOrigin().equals(method));
  }

  @Test
  @DisplayName("has nothing left to do later in its sources, rules and cases")
  void hasNothingLeftToDo() throws IOException {
    // Spelled in halves, so that this file does not find itself.
    Pattern mark = Pattern.compile("\\b(TO" + "DO|FIX" + "ME|XX" + "X)\\b");
    List<String> found = new ArrayList<>();
    int lines = 0;
    for (Path folder : List.of(Path.of("src"), Path.of("rules"), Path.of("cases"))) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
          int number = 0;
          // Samples come in other letters too, and any byte is one of these.
          for (String line : Files.readAllLines(file, StandardCharsets.ISO_8859_1)) {
            number++;
            if (mark.matcher(line).find()) {
              found.add(file + ":" + number + " " + line.strip());
            }
          }
          lines += number;
        }
      }
    }
    assertThat(found).isEmpty();
    assertThat(lines).as("lines looked at").isGreaterThan(10_000);
  }

  @Test
  @DisplayName("lets only the paper printer touch the PDF library, so that triage never loads it")
  void keepsThePdfLibraryBehindOneDoor() {
    noClasses()
        .that()
        .doNotHaveSimpleName("SheetPdf")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("com.openhtmltopdf..", "org.apache.pdfbox..")
        .check(CLASSES);
    noClasses()
        .that()
        .resideInAPackage("firmlever.warranty..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("java.io..", "java.nio..", "org.drools..", "org.kie..", "picocli..")
        .check(CLASSES);
  }
}
