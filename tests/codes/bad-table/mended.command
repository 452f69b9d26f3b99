new term --from mended/rows.csv -C mended
