new term --from failing/rows.csv -C failing
