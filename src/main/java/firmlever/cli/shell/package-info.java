/**
 * What all commands share.
 *
 * <p><b>Files and screens.</b> Before a command works, {@code Outputs} refuses to write over what
 * it reads, onto devices, pipes and folders; {@code document/WholeFile} is the only thing that
 * writes files. {@code Results} is standard output that is never lost in silence; all that is
 * printed passes {@code Screen}, which spells out what would steer a terminal. {@code Failures}
 * turns what goes wrong into words: in one case of many (that case's problem), or in the run (exit
 * code 2 for the input, 4 for the program or the machine).
 */
@NullMarked
package firmlever.cli.shell;

import org.jspecify.annotations.NullMarked;
