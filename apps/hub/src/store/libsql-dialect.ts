import { CompiledQuery, type Dialect, SqliteDialect } from "kysely";
import type Database from "libsql";

/**
 * Lets the query builder speak to libsql, whose interface is that of the driver it knows.
 *
 * Two things differ from the usual. A transaction takes the right to write at its beginning: one that reads first and
 * writes later would be refused if another program had written in between. And when a disk is full, SQLite undoes the
 * whole transaction by itself (seen on a full disk: at the commit), and asking it to undo once more fails with a
 * message that hides the first; so it is asked only while there is something to undo.
 */
export function libsqlDialect(database: Database.Database): Dialect {
  const sqlite = new SqliteDialect({ database });
  return {
    createAdapter: () => sqlite.createAdapter(),
    createIntrospector: (db) => sqlite.createIntrospector(db),
    createQueryCompiler: () => sqlite.createQueryCompiler(),
    createDriver: () => {
      const driver = sqlite.createDriver();
      const undo = driver.rollbackTransaction.bind(driver);
      driver.beginTransaction = async (connection) => {
        await connection.executeQuery(CompiledQuery.raw("begin immediate"));
      };
      driver.rollbackTransaction = async (connection) => {
        if (database.inTransaction) await undo(connection);
      };
      return driver;
    },
  };
}
