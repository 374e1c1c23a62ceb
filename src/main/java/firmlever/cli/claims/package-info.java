/** The commands of the warranty desk, and the claims of the bench's store as it reads them. */
package firmlever.cli.claims;
