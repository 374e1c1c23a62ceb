package firmlever.bench.job;

import firmlever.casefile.CaseReader;
import firmlever.diagnosis.Diagnostician;
import firmlever.hearing.Heeding;
import firmlever.jobcard.Acceptor;
import firmlever.jobcard.JobCards;
import firmlever.rulebase.RuleBase;
import firmlever.vocabulary.Vocabulary;
import java.util.Optional;

/**
 * The parts that think, as the commands have them.
 *
 * @param claims empty where the bench was given no policy to judge claims by
 */
public record Reasoning(
    Vocabulary vocabulary,
    RuleBase rules,
    CaseReader reader,
    Heeding heeding,
    Diagnostician diagnostician,
    JobCards cards,
    Acceptor acceptor,
    Optional<ClaimDesk> claims) {}
