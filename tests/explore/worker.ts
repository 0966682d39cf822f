/** A process of its own, which can be stopped when it does not come back: takes notebooks one by one and answers with findings. */
import { examine, type Order } from './examine.ts';

process.on('message', (order: Order) => {
  void examine(order).then(findings => process.send?.(findings));
});
