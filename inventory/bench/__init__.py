"""What a person does at the bench, one function each; every write is one transaction.

The functions live in small modules by subject (``log``, ``moves``, ``bench_test``, ``find``,
``jobs``, ``look``, ``files``, ...), imported where they are used so that a search starts quickly.
"""
