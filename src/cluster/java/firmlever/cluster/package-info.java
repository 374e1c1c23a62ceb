/** The review of comebacks as a job of Apache Spark; leans on the door of {@code cli} alone. */
package firmlever.cluster;
