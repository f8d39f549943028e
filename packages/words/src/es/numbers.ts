/** Un número con coma decimal, con tantas cifras detrás. */
export const decimal = (n: number, digits: number): string => n.toFixed(digits).replace(".", ",");
