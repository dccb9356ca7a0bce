/** A database that fails where a test says: every request goes past `before`, which may throw or end the transaction late. */

export interface Faults {
  /** Before each request on a store. Throws: the request fails at once. Answers an error: the transaction is undone with it when it would end. */
  before(method: string, store: string): DOMException | void;
  /** Before each transaction. */
  begin?(): void;
}

const REQUESTS = ['put', 'delete', 'get', 'getAll', 'getKey', 'getAllKeys'];

export function faulty(factory: IDBFactory, faults: Faults): IDBFactory {
  return around(factory, {
    open: (name: string, version?: number) => around(factory.open(name, version), {}, { result: (db) => database(db as IDBDatabase, faults) }),
  });
}

function database(db: IDBDatabase, faults: Faults): IDBDatabase {
  return around(db, {
    transaction: (stores: string[], mode: IDBTransactionMode, options: IDBTransactionOptions) => {
      faults.begin?.();
      return transaction(db.transaction(stores, mode, options), faults);
    },
  });
}

function transaction(tx: IDBTransaction, faults: Faults): IDBTransaction {
  let late: DOMException | undefined;
  return around(
    tx,
    {
      objectStore: (name: string) => {
        const store = tx.objectStore(name);
        const request = (method: string) => (...args: unknown[]) => {
          const error = faults.before(method, name);
          const answer = (store as unknown as Record<string, (...args: unknown[]) => unknown>)[method](...args);
          if (error) {
            late = error;
            tx.abort();
          }
          return answer;
        };
        return around(store, Object.fromEntries(REQUESTS.map((method) => [method, request(method)])));
      },
    },
    { error: (own) => late ?? own },
  );
}

/** `methods` stand in for the target's own; `getters` see the value of a property. */
function around<T extends object>(target: T, methods: Record<string, (...args: never[]) => unknown>, getters: Record<string, (own: unknown) => unknown> = {}): T {
  return new Proxy(target, {
    get(_, key) {
      if (typeof key === 'string' && Object.hasOwn(methods, key)) return methods[key];
      const own = Reflect.get(target, key, target) as unknown;
      if (typeof key === 'string' && Object.hasOwn(getters, key)) return getters[key](own);
      return typeof own === 'function' ? own.bind(target) : own;
    },
    set: (_, key, value) => Reflect.set(target, key, value, target),
  });
}
